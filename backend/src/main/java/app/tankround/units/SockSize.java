package app.tankround.units;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What a filter sock measures, or what is asked of one: a length or a fineness that nobody states is any when it is asked for,
 * and not known of a sock.
 *
 * <p>In their order a size that is stated more closely comes before every one that {@linkplain #admits admits} it, so that who
 * goes through sizes in order gives those their socks first that can take no other.
 *
 * @param diameterMm 10 to 1000 mm
 * @param lengthMm 10 to 3000 mm
 * @param finenessUm what still passes through, 1 to 2000 µm
 */
public record SockSize(int diameterMm, Optional<Integer> lengthMm, Optional<Integer> finenessUm)
        implements Comparable<SockSize> {

    private static final Comparator<SockSize> ORDER = Comparator.comparingInt(SockSize::diameterMm)
            .thenComparingInt(size -> size.lengthMm().orElse(Integer.MAX_VALUE))
            .thenComparingInt(size -> size.finenessUm().orElse(Integer.MAX_VALUE));

    /** Of whatever length and fineness. */
    public static SockSize ofDiameter(int millimetres) {
        return new SockSize(millimetres, Optional.empty(), Optional.empty());
    }

    /** Such as {@code 175}, {@code 175x400}, {@code 175-200} and {@code 175x400-200}; it names the size in keys and addresses. */
    public String code() {
        return diameterMm
                + lengthMm.map(length -> "x" + length).orElse("")
                + finenessUm.map(fineness -> "-" + fineness).orElse("");
    }

    /** Such as {@code 175 × 400 mm, 200 µm}, which needs no words. */
    public String text() {
        return diameterMm
                + lengthMm.map(length -> " × " + length).orElse("") + " mm"
                + finenessUm.map(fineness -> ", " + fineness + " µm").orElse("");
    }

    /** Whether a sock of that size, or whatever serves where that size is asked for, serves where this one is asked for. */
    public boolean admits(SockSize other) {
        return diameterMm == other.diameterMm
                && (lengthMm.isEmpty() || lengthMm.equals(other.lengthMm))
                && (finenessUm.isEmpty() || finenessUm.equals(other.finenessUm));
    }

    /** What is meant by this one among sizes that are asked for: the only one that it admits, else just what it says. */
    public SockSize meantAmong(Collection<SockSize> asked) {
        List<SockSize> admitted = asked.stream().filter(this::admits).distinct().toList();
        return admitted.size() == 1 ? admitted.getFirst() : this;
    }

    @Override
    public int compareTo(SockSize other) {
        return ORDER.compare(this, other);
    }
}
