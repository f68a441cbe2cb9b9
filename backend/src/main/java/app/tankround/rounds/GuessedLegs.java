package app.tankround.rounds;

/**
 * How far a round's driving times are to be believed.
 *
 * @param guessed legs that the travel table says nothing of, so that they are guessed from the straight line
 * @param all legs of the round, out and back included
 */
public record GuessedLegs(int guessed, int all) {}
