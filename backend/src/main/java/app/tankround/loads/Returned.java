package app.tankround.loads;

import java.math.BigDecimal;

/**
 * What somebody says of a thing at the return, each 0 or more, in the unit of the thing.
 *
 * @param back fit for use, and out of the van
 * @param stays in the van, for its next round
 * @param wasted poured away or thrown away
 * @param reason why that is not what it should be; may be empty where it is
 */
public record Returned(BigDecimal back, BigDecimal stays, BigDecimal wasted, BigDecimal broken, String reason) {

    /** All that is left of a thing is out of the van and fit for use. */
    public static Returned allBack(BigDecimal left, String reason) {
        return new Returned(left, BigDecimal.ZERO, BigDecimal.ZERO, BigDecimal.ZERO, reason);
    }

    BigDecimal sum() {
        return back.add(stays).add(wasted).add(broken);
    }
}
