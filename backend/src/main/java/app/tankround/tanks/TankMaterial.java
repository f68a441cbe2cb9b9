package app.tankround.tanks;

/** What the panes are made of. Acrylic is scratched by a blade or pad that glass bears. */
public enum TankMaterial {
    GLASS,
    ACRYLIC
}
