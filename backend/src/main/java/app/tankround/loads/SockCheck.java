package app.tankround.loads;

import app.tankround.units.SockSize;

/**
 * Clean socks of one size that is asked for against what is on the shelf. What serves several sizes is for the one first that
 * can take no other.
 *
 * @param neededHere on this round
 * @param neededToday on all rounds of the day
 * @param onHand what serves and no narrower size has taken; 0 if nobody has counted any
 * @param counted whether the catalogue holds any that serves
 */
public record SockCheck(SockSize size, int neededHere, int neededToday, int onHand, boolean counted) {

    /** How many are missing for the day's rounds; 0 if there are enough. */
    public int missing() {
        return Math.max(0, neededToday - onHand);
    }
}
