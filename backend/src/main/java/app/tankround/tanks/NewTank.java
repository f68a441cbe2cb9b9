package app.tankround.tanks;

/** A tank to be added. The id is made before the form is shown, so that sending it twice adds once. */
public record NewTank(TankId id, TankDetails details) {}
