package app.tankround.loads;

/** What the number of a line counts. */
public enum LoadUnit {
    DRUM,
    KILOGRAM,
    GRAM,
    LITRE,
    MILLILITRE,
    PIECE,
    SET;

    static LoadUnit ofCode(String code) {
        return switch (code) {
            case "kg" -> KILOGRAM;
            case "g" -> GRAM;
            case "L" -> LITRE;
            case "mL" -> MILLILITRE;
            case "count" -> PIECE;
            default -> throw new IllegalArgumentException("no unit of a load: " + code);
        };
    }
}
