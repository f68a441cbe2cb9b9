package app.tankround.chemistry;

/** Whether an instrument makes up for temperature by itself. */
public enum TemperatureCompensation {
    /** It shows the same in the same water whatever the temperature, nearly. */
    AUTOMATIC,
    /** What it shows holds at the temperature of its check only. */
    NONE
}
