package app.tankround.readings;

/** What kind of answer a measurement gave. Only some are numbers, and none of the others is zero. */
public enum Answer {
    VALUE,
    /** Less than the smallest amount the method can see; the value is that amount. */
    BELOW_DETECTION,
    /** More than the scale reaches; the value is the end of the scale. */
    ABOVE_RANGE,
    /** Between two colours or two marks; the value is the lower, the upper value the higher one. */
    BETWEEN,
    /** Not measured, with the reason. */
    NOT_MEASURED
}
