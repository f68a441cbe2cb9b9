package app.tankround.clients;

/** What a place is guessed from that nobody has given coordinates for. */
public enum PlaceGuess {
    /** The middle of its postal code or its town, as somebody gave it. */
    GIVEN,
    /** The middle of the business's other sites of the same postal code. */
    POSTAL_CODE,
    /** The middle of its other sites in the same town. */
    LOCALITY,
    /** The middle of all its other sites. */
    BUSINESS
}
