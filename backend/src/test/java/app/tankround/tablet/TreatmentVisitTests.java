package app.tankround.tablet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import app.tankround.followups.FollowupView;
import app.tankround.followups.Followups;
import app.tankround.plans.Treatment;
import app.tankround.plans.Treatment.CopperForm;
import app.tankround.plans.Treatment.KitShows;
import app.tankround.plans.Treatment.State;
import app.tankround.plans.Treatment.Thing;
import app.tankround.plans.Treatments;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.QuarantineService;
import app.tankround.tanks.ReleaseHindrances.Hindrance;
import app.tankround.tanks.WaterSystems;
import app.tankround.testing.IntegrationTest;
import app.tankround.testing.TestClock;
import app.tankround.testing.TestTreatments;
import app.tankround.visits.VisitId;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.context.SpringBootTest;

/** A treatment from the first dose until everything is back, and illness suspected in the middle of a round. */
@SpringBootTest(webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
@IntegrationTest
class TreatmentVisitTests {

    @Autowired
    private VisitFixture fixture;

    @Autowired
    private EntryInbox inbox;

    @Autowired
    private DayBundle bundle;

    @Autowired
    private Treatments treatments;

    @Autowired
    private QuarantineService quarantine;

    @Autowired
    private WaterSystems systems;

    @Autowired
    private Followups followups;

    @Autowired
    private TestClock clock;

    private VisitFixture.Stop stop;

    @BeforeEach
    void begin() {
        stop = fixture.stop();
        assertThat(take("visit.start", "{'stop':'%s'}".formatted(stop.stop())).status())
                .isEqualTo(EntryAnswer.Status.APPLIED);
    }

    @AfterEach
    void reset() {
        clock.set(TestClock.START);
    }

    private Entry now(Entry entry) {
        return new Entry(
                entry.id(),
                entry.kind(),
                entry.subject(),
                entry.device(),
                entry.sequence(),
                entry.field(),
                clock.instant().atOffset(ZoneOffset.ofHours(1)),
                entry.clockAhead(),
                entry.base(),
                entry.body(),
                entry.author());
    }

    private EntryAnswer take(String kind, String body) {
        return inbox.take(now(fixture.entry(stop, kind, body)));
    }

    private EntryAnswer dose(String line, String amount) {
        return take(
                "visit.dose",
                "{'system':'%s','line':'%s','product':'Copper sulfate','amount':'%s','unit':'mL','prepared':true,'further':true}"
                        .formatted(stop.system(), line, amount));
    }

    private EntryAnswer thing(UUID treatment, Thing thing, State state, State before) {
        String body = "{'system':'%s','treatment':'%s','thing':'%s','state':'%s'}";
        String said = body.formatted(stop.system(), treatment, thing, state);
        String base = before == State.ON ? null : body.formatted(stop.system(), treatment, thing, before);
        return inbox.take(now(fixture.entry(stop, "visit.treatment-thing", said, base)));
    }

    private Treatment copper(CopperForm form, KitShows kit) {
        return TestTreatments.copper(
                stop.system(), VisitFixture.TODAY, form, kit, Map.of(Thing.CARBON, State.ON, Thing.UV, State.ON));
    }

    /** That a kit for free copper misses bound copper, and that copper adds up: common practice, no source. */
    @Test
    void beginsNoCopperThatTheKitDoesNotSee() {
        assertThatExceptionOfType(FieldRefusal.class)
                .isThrownBy(() -> treatments.begin(copper(CopperForm.CHELATED, KitShows.FREE)))
                .satisfies(refusal -> assertThat(refusal.code()).isEqualTo("plans.treatment.kit-blind"));
        assertThat(treatments.bySystem(stop.system())).isEmpty();
    }

    @Test
    void dosesByNetVolumeAndByWhatIsLeftOnceNothingTakesItOut() {
        Treatment treatment = copper(CopperForm.FREE, KitShows.TOTAL);
        treatments.begin(treatment);
        EntryAnswer stillOn = dose("a", "20");
        assertThat(stillOn.code()).isEqualTo("plans.treatment.still-on");
        assertThat(String.valueOf(stillOn.args().get("words"))).contains("Carbon and resins, UV.");
        thing(treatment.id(), Thing.CARBON, State.OFF, State.ON);
        assertThat(dose("b", "20").code()).as("UV is on still").isEqualTo("plans.treatment.still-on");
        thing(treatment.id(), Thing.UV, State.OFF, State.ON);
        // 0.20 mg/L in 400 L are 80 mg, in 1.5 mg/mL 53.3 mL.
        assertThat(dose("c", "56").code()).isEqualTo("plans.treatment.too-much");
        assertThat(dose("d", "50").status()).isEqualTo(EntryAnswer.Status.APPLIED);
        clock.advance(Duration.ofHours(20));
        assertThat(dose("e", "20").code()).isEqualTo("plans.treatment.residual-first");
        take(
                "visit.reading",
                "{'system':'%s','quantity':'COPPER','answer':'VALUE','value':'0.12','unit':'mg/L','kitLot':'LOT-7'}"
                        .formatted(stop.system()));
        clock.advance(Duration.ofMinutes(5));
        // (0.20 - 0.12) mg/L in 400 L are 32 mg, 21.3 mL.
        assertThat(dose("f", "30").code()).isEqualTo("plans.treatment.too-much");
        assertThat(dose("g", "20").status()).isEqualTo(EntryAnswer.Status.APPLIED);
        assertThat(dose("h", "1").code()).as("nothing was read since").isEqualTo("plans.treatment.residual-first");
    }

    @Test
    void asksUntilEverythingIsBackAndHoldsTheQuarantineTillThen() {
        Treatment treatment = copper(CopperForm.FREE, KitShows.FREE);
        treatments.begin(treatment);
        assertThat(hindrances()).contains("plans.release.treatment-runs");
        thing(treatment.id(), Thing.CARBON, State.OFF, State.ON);
        thing(treatment.id(), Thing.UV, State.OFF, State.ON);
        treatments.end(stop.system(), treatment.id(), VisitFixture.TODAY, "Fourteen days are over");
        assertThat(matters("plans.followup.put-back")).hasSize(1);
        thing(treatment.id(), Thing.CARBON, State.BACK, State.OFF);
        assertThat(hindrances()).contains("plans.release.not-put-back");
        assertThat(matters("plans.followup.put-back")).hasSize(1);
        thing(treatment.id(), Thing.UV, State.BACK, State.OFF);
        assertThat(matters("plans.followup.put-back")).isEmpty();
        assertThat(hindrances()).noneMatch(code -> code.startsWith("plans."));
    }

    @Test
    void asksAtTheVisitForWhatIsLeftOfTheCopper() {
        assertThat(measured()).doesNotContain("quantity=COPPER");
        treatments.begin(copper(CopperForm.FREE, KitShows.TOTAL));
        assertThat(measured()).contains("quantity=COPPER");
    }

    private String measured() {
        Object systems = bundle.of(
                        stop.technician(),
                        VisitFixture.TODAY,
                        Optional.of(VisitId.of(stop.visit())),
                        Optional.empty(),
                        Locale.UK)
                .get("systems");
        return String.valueOf(systems);
    }

    private List<String> hindrances() {
        return quarantine.hindrances(systems.require(stop.system())).stream()
                .map(Hindrance::code)
                .toList();
    }

    private List<FollowupView> matters(String code) {
        return followups.open().stream()
                .filter(matter -> matter.code().equals(code)
                        && matter.subjectId().equals(stop.system().value()))
                .toList();
    }

    @Test
    void tellsTheOfficeOfASuspicionWithWhatIsDoneAndTheRestOfTheRound() {
        assertThat(take(
                                "visit.suspicion",
                                "{'system':'%s','signs':'white spots','after':'DISINFECT','rest':['%s']}"
                                        .formatted(stop.system(), stop.stop()))
                        .status())
                .isEqualTo(EntryAnswer.Status.APPLIED);
        assertThat(systems.require(stop.system()).infectionClass()).isEqualTo(InfectionClass.SUSPECTED);
        assertThat(matters("visits.followup.suspicion")).singleElement().satisfies(matter -> {
            assertThat(matter.args().get(1)).isEqualTo("white spots");
            assertThat(matter.args().get(2)).contains("Bellwether");
        });
    }

    @Test
    void leavesAQuarantineAQuarantineWhenIllnessIsSuspectedInIt() {
        systems.changeInfectionClass(
                stop.system(),
                systems.require(stop.system()).version(),
                InfectionClass.QUARANTINE,
                VisitFixture.TODAY.minusDays(3),
                null);
        take("visit.suspicion", "{'system':'%s','signs':'white spots','after':'LAST'}".formatted(stop.system()));
        assertThat(systems.require(stop.system()).infectionClass()).isEqualTo(InfectionClass.QUARANTINE);
        assertThat(matters("visits.followup.suspicion")).hasSize(1);
    }
}
