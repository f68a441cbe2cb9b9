package app.tankround.loads;

import java.math.BigDecimal;

/**
 * What somebody says of a thing at the return, each 0 or more, in the unit of the thing.
 *
 * @param back fit for use, and out of the van
 * @param stays in the van, for its next round
 * @param wasted poured away or thrown away
 * @param reason why that is not what it should be; may be empty where it is
 * @param goes of water, what becomes of what is back: {@link #KEEP}, {@link #AWAY} or the id of a vat; empty where nobody said,
 *     which is the first where it may wait and the second where it may not
 */
public record Returned(
        BigDecimal back, BigDecimal stays, BigDecimal wasted, BigDecimal broken, String reason, String goes) {

    /** It waits in its drums for the next round. */
    public static final String KEEP = "keep";

    /** It is poured away. */
    public static final String AWAY = "away";

    /** Of a thing that is no water, or of water of which nobody said what becomes of what is back. */
    public Returned(BigDecimal back, BigDecimal stays, BigDecimal wasted, BigDecimal broken, String reason) {
        this(back, stays, wasted, broken, reason, "");
    }

    /** All that is left of a thing is out of the van and fit for use. */
    public static Returned allBack(BigDecimal left, String reason) {
        return allBack(left, reason, "");
    }

    /** The same of water. */
    public static Returned allBack(BigDecimal left, String reason, String goes) {
        return new Returned(left, BigDecimal.ZERO, BigDecimal.ZERO, BigDecimal.ZERO, reason, goes);
    }

    BigDecimal sum() {
        return back.add(stays).add(wasted).add(broken);
    }
}
