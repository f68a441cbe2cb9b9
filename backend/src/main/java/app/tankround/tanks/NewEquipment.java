package app.tankround.tanks;

/** A device to be added. The id is made before the form is shown, so that sending it twice adds once. */
public record NewEquipment(EquipmentId id, EquipmentDetails details) {}
