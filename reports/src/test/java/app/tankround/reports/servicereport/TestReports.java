package app.tankround.reports.servicereport;

import app.tankround.reports.TestPictures;
import app.tankround.reports.servicereport.DoubtNotice.Step;
import app.tankround.reports.servicereport.Measurement.Axis;
import app.tankround.reports.servicereport.Measurement.DoubtMark;
import app.tankround.reports.servicereport.Measurement.InDoubt;
import app.tankround.reports.servicereport.Measurement.Mark;
import app.tankround.reports.servicereport.Measurement.NotMeasured;
import app.tankround.reports.servicereport.Measurement.Plain;
import app.tankround.reports.servicereport.Measurement.State;
import app.tankround.reports.servicereport.Measurement.Verdict;
import app.tankround.reports.servicereport.ServiceReport.Business;
import app.tankround.reports.servicereport.ServiceReport.Correction;
import app.tankround.reports.servicereport.ServiceReport.NextVisit;
import app.tankround.reports.servicereport.ServiceReport.Photo;
import app.tankround.reports.servicereport.ServiceReport.Signature;
import app.tankround.reports.servicereport.ServiceReport.Visit;
import app.tankround.reports.servicereport.WaterSystem.LivestockLine;
import app.tankround.reports.servicereport.WaterSystem.ReadingLine;
import java.time.Instant;
import java.util.List;
import java.util.Locale;

/** Invented reports. */
final class TestReports {

    static final Labels ENGLISH = new Labels(
            new Labels.Head("Report", "Version", "For", "Site", "Visit", "Technician", "Met"),
            new Labels.Readings(
                    "What we measured",
                    "Reading",
                    "This visit",
                    "Last visit",
                    "Against the target",
                    "Target",
                    "Nothing was measured at this visit.",
                    "inside the two lines",
                    "too close to tell",
                    "outside",
                    "not trusted; dashes lead to the real value",
                    "small stroke: last time"),
            new Labels.Verdicts("Inside", "Cannot tell", "Above", "Below", "No target", "Not trusted", "Not measured"),
            new Labels.Doubt(
                    "Read",
                    "Really",
                    "not known",
                    "What was read",
                    "What it really was",
                    "What we did not do, and why",
                    "Back to the target, step by step"),
            new Labels.Livestock("Animals", "Animal", "Seen", "Lost", "Remark"),
            new Labels.Sections(
                    "What it means",
                    "What we did",
                    "For the whole site",
                    "Photos",
                    "What you can do",
                    "Next visit",
                    "For your safety"),
            new Labels.Foot((page, pages) -> "Page " + page + " of " + pages));

    static final Business BUSINESS = new Business(
            "Lantern Quay Aquaria", List.of("12 Lantern Quay, Ossmouth", "0555 010 140 · office@lanternquay.example"));

    static final Visit VISIT = new Visit(
            "V-2290",
            "2",
            "Bellwether Restaurant",
            "4 Mill Lane, Ossmouth",
            "19 November 2026, 11:21 to 12:19",
            "Noor Achterberg",
            "R. Castellane");

    private TestReports() {}

    static ServiceReport full() {
        return new ServiceReport(
                Locale.UK,
                Instant.parse("2026-11-19T13:05:00Z"),
                "Your aquariums on 19 November",
                BUSINESS,
                VISIT,
                new Correction(
                        "This version corrects version 1. What changed:",
                        List.of(
                                "Dining room: Salinity. We wrote: Inside. We no longer trust the 1.025 that was read.")),
                List.of("The fish look well and eat. Two things are not as they should be: the water is too salty, and"
                        + " phosphate is high. Both can be put right without risk, and we have begun."),
                List.of(marine(), freshwater()),
                List.of("Tested the safety switch: it trips and resets", "Left the cabinet locked"),
                List.of(
                        new Photo(TestPictures.jpeg(1600, 1200, "Whole tank, fish in open water"), "Whole tank, 11:26"),
                        new Photo(TestPictures.jpeg(1200, 1600, "Sump seen from the front"), "Sump before, 11:28"),
                        new Photo(TestPictures.png(800, 600, "Two clean filter socks"), "Clean socks, 11:58")),
                List.of(
                        "Feed half until 23 November. Food is where the phosphate comes from.",
                        "Do not top up with tap water. The automatic top-off does it.",
                        "Call us if a fish breathes fast or stays at the surface: 0555 010 141, day and night."),
                new NextVisit(
                        "Monday 23 November, 11:15 to 12:30",
                        List.of(
                                "Salinity down to 1.031 SG 25/25.",
                                "Phosphate measured again, nitrate with a finer kit.")),
                List.of(
                        "Water and electricity: unplug at the wall before you reach into the tank or the cabinet. Ask an"
                                + " electrician about damaged cables, and a veterinarian about sick animals."),
                List.of(
                        new Signature(
                                TestPictures.signature("Signature of R. Castellane"),
                                "For Bellwether Restaurant: R. Castellane"),
                        new Signature(null, "For Lantern Quay Aquaria: N. Achterberg")));
    }

    static WaterSystem marine() {
        return new WaterSystem(
                "Dining room",
                "marine, with reef",
                "640 L",
                List.of(
                        new ReadingLine(
                                "Temperature",
                                plain("25.4 °C", Verdict.INSIDE, 20, 30, 23.0, 27.0, 25.4, 0.3, 25.1),
                                new Plain("25.1 °C", Verdict.INSIDE, null),
                                "23 to 27 °C"),
                        salinityInDoubt(),
                        new ReadingLine(
                                "Alkalinity",
                                plain("8.2 dKH", Verdict.INSIDE, 4, 14, 7.0, 12.0, 8.2, 0.5, 8.6),
                                new Plain("8.6 dKH", Verdict.INSIDE, null),
                                "7 to 12 dKH"),
                        new ReadingLine(
                                "Ammonia, total",
                                new Plain(
                                        "under 0.05 mg/L",
                                        Verdict.INSIDE,
                                        new Mark(new Axis(0, 0.3, null, 0.1), 0.025, 0.025, null)),
                                new NotMeasured("kit used up"),
                                "up to 0.1 mg/L"),
                        new ReadingLine(
                                "Nitrate",
                                new Plain(
                                        "38 mg/L",
                                        Verdict.CANNOT_TELL,
                                        new Mark(new Axis(0, 70, null, 40.0), 38, 5.0, 34.0)),
                                new Plain("34 mg/L", Verdict.INSIDE, null),
                                "up to 40 mg/L"),
                        new ReadingLine(
                                "Phosphate",
                                new Plain(
                                        "0.61 mg/L",
                                        Verdict.ABOVE,
                                        new Mark(new Axis(0, 1, null, 0.5), 0.61, 0.05, 0.44)),
                                new Plain("0.44 mg/L", Verdict.INSIDE, null),
                                "up to 0.5 mg/L"),
                        new ReadingLine("Magnesium", new NotMeasured("not due before December"), null, null)),
                List.of("The water is too salty for the corals in the long run. Phosphate feeds algae."),
                List.of(saltNotice()),
                List.of(
                        "Changed 65 L of water, matched to 1.033 SG 25/25",
                        "Emptied and rinsed the skimmer cup",
                        "Changed 2 filter socks (100 mm)",
                        "Top-off, heater and pump on when we left",
                        "Changed the phosphate media (0.5 L)"),
                List.of(
                        new LivestockLine("Yellow tang", "2", "0", null),
                        new LivestockLine(
                                "Green chromis", "about 20", "1", "One found dead behind the rock, removed")));
    }

    static ReadingLine salinityInDoubt() {
        return new ReadingLine(
                "Salinity (specific gravity)",
                new InDoubt(
                        "1.025 SG 25/25",
                        "1.033 ± 0.001 SG 25/25",
                        State.OPEN,
                        new DoubtMark(new Axis(1.018, 1.036, 1.023, 1.026), 1.025, 1.033, 0.001)),
                new InDoubt("1.025 SG 25/25", null, State.SETTLED, null),
                "1.023 to 1.026 SG 25/25");
    }

    static DoubtNotice saltNotice() {
        return new DoubtNotice(
                "About the salt",
                State.OPEN,
                List.of("The instrument we used since 24 September had gone wrong. We found this with our regular check"
                        + " this morning, and we have taken it out of use. The mistake is ours; the extra visits cost"
                        + " you nothing."),
                "1.025 SG 25/25",
                "1.033 SG 25/25, give or take 0.001",
                List.of(
                        "We did not bring the salt down at once: your fish are used to the saltier water, so we go down a"
                                + " little at each visit."),
                List.of(
                        new Step("1.033 SG 25/25", "19 November"),
                        new Step("1.031 SG 25/25", "23 November"),
                        new Step("1.029 SG 25/25", "26 November"),
                        new Step("1.027 SG 25/25", "30 November"),
                        new Step("1.025 SG 25/25", "3 December")));
    }

    static WaterSystem freshwater() {
        return new WaterSystem(
                "Entrance",
                "freshwater, planted",
                "180 L",
                List.of(
                        new ReadingLine(
                                "pH", plain("6.3", Verdict.BELOW, 5, 9, 6.5, 7.5, 6.3, 0.1, 6.8), null, "6.5 to 7.5"),
                        new ReadingLine("Conductivity", new Plain("410 μS/cm", Verdict.NO_TARGET, null), null, null)),
                List.of("The water has become a little sour. The carbon dioxide was set too high; we set it lower."),
                List.of(),
                List.of("Trimmed the plants"),
                List.of());
    }

    private static Plain plain(
            String text,
            Verdict verdict,
            double min,
            double max,
            double low,
            double high,
            double value,
            double uncertainty,
            double previous) {
        return new Plain(text, verdict, new Mark(new Axis(min, max, low, high), value, uncertainty, previous));
    }

    /** The least that can be said. */
    static ServiceReport bare(List<WaterSystem> systems) {
        return new ServiceReport(
                Locale.UK,
                Instant.parse("2026-11-19T13:05:00Z"),
                "Your aquarium on 19 November",
                new Business("Lantern Quay Aquaria", List.of()),
                new Visit(
                        "V-1", "1", "Bellwether Restaurant", "4 Mill Lane", "19 November 2026", "N. Achterberg", null),
                null,
                List.of(),
                systems,
                List.of(),
                List.of(),
                List.of(),
                null,
                List.of(),
                List.of());
    }

    static WaterSystem emptySystem() {
        return new WaterSystem("Dining room", "marine", "640 L", List.of(), List.of(), List.of(), List.of(), List.of());
    }
}
