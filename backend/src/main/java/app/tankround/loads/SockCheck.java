package app.tankround.loads;

/**
 * Clean socks of one size against what is on the shelf.
 *
 * @param neededHere on this round
 * @param neededToday on all rounds of the day
 * @param onHand at the last count; 0 if nobody has counted any of this size
 * @param counted whether the catalogue holds this size
 */
public record SockCheck(int sizeMm, int neededHere, int neededToday, int onHand, boolean counted) {

    /** How many are missing for the day's rounds; 0 if there are enough. */
    public int missing() {
        return Math.max(0, neededToday - onHand);
    }
}
