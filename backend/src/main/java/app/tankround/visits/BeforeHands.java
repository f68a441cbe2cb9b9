package app.tankround.visits;

import app.tankround.clients.LoneHazard;
import app.tankround.clients.ResidualCurrentTest;
import app.tankround.clients.SiteSafetyView;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * What is said before hands go in: what fits this site and the tasks of today, and one general reminder, another each day.
 * A page that says the same every day is read by nobody.
 */
public final class BeforeHands {

    /**
     * A sentence.
     *
     * @param code message code below {@code visits.before.}
     */
    public record Said(String code, List<String> args) {

        public Said {
            args = List.copyOf(args);
        }
    }

    /** What a task brings near the skin, by what its words say; medicines are known by their rules. */
    public enum Chemical {
        ACID("\\bacid|\\bvinegar|\\bdescal"),
        LIME("\\blime\\b|\\blime ?water|\\bkalk|\\bcalcium hydroxide"),
        BLEACH("\\bbleach|\\bhypochlorite"),
        MEDICINE("(?!)");

        private final Pattern words;

        Chemical(String words) {
            this.words = Pattern.compile(words);
        }

        static Stream<Chemical> in(String text) {
            String plain = text.toLowerCase(Locale.ROOT);
            return Stream.of(values())
                    .filter(chemical -> chemical.words.matcher(plain).find());
        }
    }

    /**
     * What is known of a site and of today.
     *
     * @param handsIn whether something due takes hands into the water, or it is not known what is due
     * @param water how much water is changed here today, in words; empty where none is
     * @param heavy how much of it is carried in, in words; empty where that is little, or it is made there
     * @param chemicals what is due with them, by kind
     * @param sick names of the systems here that are sick, suspected or in quarantine
     */
    public record Facts(
            SiteSafetyView safety,
            boolean handsIn,
            Optional<String> water,
            Optional<String> heavy,
            Map<Chemical, String> chemicals,
            List<String> sick,
            LocalDate day) {}

    private static final List<String> GENERAL =
            List.of("drip-loop", "cut-skin", "dry-hands", "breaker", "way-free", "wash", "floor", "lifting");

    private BeforeHands() {}

    /** What is said, the site's own first. */
    public static List<Said> of(Facts facts) {
        List<Said> said = new ArrayList<>();
        SiteSafetyView safety = facts.safety();
        if (safety.checkInFor() != LoneHazard.NOTHING) {
            said.add(new Said(
                    "hazard." + safety.checkInFor(),
                    List.of(safety.checkInNote().orElse(""))));
        }
        if (safety.residualCurrentTest() != ResidualCurrentTest.NOT_ASKED || facts.handsIn()) {
            said.add(new Said(
                    "residual-current." + safety.residualCurrentTest(),
                    List.of(safety.residualCurrentNote().orElse(""))));
        }
        if (facts.handsIn()) {
            said.add(new Said("power", List.of()));
        }
        facts.heavy().ifPresent(carried -> said.add(new Said("lifting", List.of(carried))));
        if (facts.water().isPresent()) {
            said.add(new Said("floor", List.of()));
        }
        for (Chemical chemical : Chemical.values()) {
            Optional.ofNullable(facts.chemicals().get(chemical))
                    .ifPresent(what -> said.add(new Said("chemical." + chemical, List.of(what))));
        }
        if (!facts.sick().isEmpty()) {
            said.add(new Said("cut-skin.sick", List.of(String.join(", ", facts.sick()))));
        }
        said.add(general(facts, said));
        return List.copyOf(said);
    }

    /** One of those that nothing here has said already, another each day. */
    private static Said general(Facts facts, List<Said> said) {
        Set<String> known = Set.copyOf(said.stream()
                .map(each -> each.code().split("\\.")[0])
                .distinct()
                .toList());
        List<String> left =
                GENERAL.stream().filter(code -> !known.contains(code)).toList();
        int turn = Math.floorMod(
                facts.day().toEpochDay() + facts.safety().siteId().value().hashCode(), left.size());
        return new Said("general." + left.get(turn), List.of());
    }
}
