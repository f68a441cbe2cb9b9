package app.tankround.visits.report;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonView;
import app.tankround.chemistry.RangeVerdict;
import app.tankround.chemistry.VerdictCode;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.documents.FileId;
import app.tankround.documents.FileStore;
import app.tankround.plans.Emergency;
import app.tankround.plans.SalinityRamps;
import app.tankround.readings.Answer;
import app.tankround.readings.AssessmentView;
import app.tankround.readings.ReadingId;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.VerdictWords;
import app.tankround.reports.Picture;
import app.tankround.reports.servicereport.DoubtNotice;
import app.tankround.reports.servicereport.Labels;
import app.tankround.reports.servicereport.ServiceReport;
import app.tankround.reports.servicereport.WaterSystem;
import app.tankround.reports.servicereport.WaterSystem.LivestockLine;
import app.tankround.reports.servicereport.WaterSystem.ReadingLine;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.schedule.TaskKind;
import app.tankround.tanks.SamplePointId;
import app.tankround.tanks.SamplePointView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.MeasurementUnit;
import app.tankround.units.Quantity;
import app.tankround.visits.VisitInWords;
import app.tankround.visits.VisitView;
import app.tankround.visits.VisitView.LivestockChange;
import app.tankround.visits.VisitView.SystemWork;
import app.tankround.visits.VisitView.TaskState;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/**
 * Composes the report of a visit from what its entries amount to. What people noted for each other is not in it: only what
 * was measured, done and seen, and what comes next.
 */
@Component
public class ReportComposer {

    /** The reading of the time before is shown if it is no older than that. */
    private static final Duration LONGEST_BEFORE = Duration.ofDays(400);

    private final WaterSystems systems;
    private final SiteService sites;
    private final People people;
    private final BusinessProfile business;
    private final DueVisits dueVisits;
    private final ReadingService readings;
    private final VerdictWords verdicts;
    private final SalinityRamps ramps;
    private final FileStore files;
    private final MessageSource messages;

    ReportComposer(
            WaterSystems systems,
            SiteService sites,
            People people,
            BusinessProfile business,
            DueVisits dueVisits,
            ReadingService readings,
            VerdictWords verdicts,
            SalinityRamps ramps,
            FileStore files,
            MessageSource messages) {
        this.systems = systems;
        this.sites = sites;
        this.people = people;
        this.business = business;
        this.dueVisits = dueVisits;
        this.readings = readings;
        this.verdicts = verdicts;
        this.ramps = ramps;
        this.files = files;
        this.messages = messages;
    }

    /** The words of the form itself, in the language of the business. */
    public Labels labels() {
        return words().labels();
    }

    private ReportWords words() {
        BusinessSettings settings = business.current();
        return new ReportWords(messages, settings.locale(), settings.zone(), settings.unitSystem());
    }

    /** A version that this one takes the place of. */
    public record Replaced(int number, Instant madeAt) {}

    /**
     * @param version number that this version of the report will carry
     * @param replaced what somebody may have read before; what it said otherwise of readings stands first
     */
    public ServiceReport compose(VisitView visit, int version, Optional<Replaced> replaced, Instant now) {
        return new Composition(visit, words()).report(version, replaced, now);
    }

    /** What was found and done, without what the report says beside it. */
    public VisitInWords inWords(VisitView visit) {
        return new Composition(visit, words()).inWords();
    }

    /** What is compared with what was found the time before. */
    private record Place(Quantity quantity, Optional<SamplePointId> point) {

        static Place of(ReadingView reading) {
            return new Place(reading.quantity(), reading.samplePointId());
        }
    }

    private final class Composition {

        private final VisitView visit;
        private final ReportWords words;
        private final ReportReadings shown;
        private final SiteView site;
        private final BusinessSettings settings = business.current();
        private final Map<WaterSystemId, List<PlannedVisitView>> coming = new LinkedHashMap<>();

        Composition(VisitView visit, ReportWords words) {
            this.visit = visit;
            this.words = words;
            this.shown = new ReportReadings(words, verdicts, pointNames());
            this.site = sites.require(visit.siteId());
            visit.systems().forEach(work -> coming.put(work.systemId(), comingVisits(work.systemId())));
        }

        /** A single sample point says nothing that its system's name does not. */
        private Map<SamplePointId, String> pointNames() {
            return visit.systems().stream()
                    .map(work -> systems.samplePoints(work.systemId()))
                    .filter(points -> points.size() > 1)
                    .flatMap(List::stream)
                    .collect(Collectors.toMap(SamplePointView::id, SamplePointView::name));
        }

        private List<PlannedVisitView> comingVisits(WaterSystemId system) {
            return dueVisits.dueFor(system).stream()
                    .filter(due -> due.dueOn().isAfter(visit.serviceDate())
                            && !visit.plannedVisits().contains(due.id()))
                    .toList();
        }

        ServiceReport report(int version, Optional<Replaced> replaced, Instant now) {
            String technician = technician();
            @Nullable String met = visit.signature()
                    .filter(signature -> !signature.byLink())
                    .flatMap(VisitView.Signature::name)
                    .orElse(null);
            return new ServiceReport(
                    words.locale(),
                    now,
                    title(),
                    new ServiceReport.Business(settings.name(), contact()),
                    new ServiceReport.Visit(
                            visit.code(),
                            Integer.toString(version),
                            site.clientName(),
                            place(),
                            date(),
                            technician,
                            met),
                    replaced.flatMap(this::correction).orElse(null),
                    summary(),
                    visit.systems().stream().map(this::system).toList(),
                    siteWork(),
                    photos(),
                    advice(),
                    nextVisit().orElse(null),
                    List.of(words.text("caution.electricity"), words.text("caution.animals")),
                    signatures(technician));
        }

        private String title() {
            return words.text(visit.systems().size() > 1 ? "title.several" : "title", words.day(visit.serviceDate()));
        }

        private String technician() {
            return people.find(visit.technicianId()).map(PersonView::name).orElse(settings.name());
        }

        private String place() {
            return Stream.of(site.name(), site.address())
                    .filter(part -> !part.isEmpty())
                    .collect(Collectors.joining(", "));
        }

        VisitInWords inWords() {
            return new VisitInWords(
                    title(),
                    settings.name(),
                    visit.code(),
                    site.clientName(),
                    place(),
                    date(),
                    technician(),
                    summary(),
                    visit.systems().stream()
                            .map(work -> words.inWords(system(work)))
                            .toList(),
                    siteWork());
        }

        private Optional<ServiceReport.Correction> correction(Replaced replaced) {
            Map<ReadingId, AssessmentView> then =
                    readings.assessedAt(measured().stream().map(ReadingView::id).toList(), replaced.madeAt());
            List<String> changes = new ArrayList<>();
            for (SystemWork work : visit.systems()) {
                String system = systems.require(work.systemId()).name();
                work.readings().stream()
                        .filter(reading -> reading.answer() != Answer.NOT_MEASURED)
                        .flatMap(reading -> shown.change(reading, Optional.ofNullable(then.get(reading.id()))).stream())
                        .forEach(change -> changes.add(words.text("changed.line", system, change)));
            }
            return changes.isEmpty()
                    ? Optional.empty()
                    : Optional.of(new ServiceReport.Correction(
                            words.text("changed.heading", Integer.toString(replaced.number())), changes));
        }

        private List<String> contact() {
            String reach = Stream.of(settings.phone(), settings.email())
                    .flatMap(Optional::stream)
                    .collect(Collectors.joining(" · "));
            return Stream.concat(
                            settings.address().stream()
                                    .map(address -> address.strip().replaceAll("\\R", ", ")),
                            Stream.of(reach))
                    .filter(line -> !line.isEmpty())
                    .toList();
        }

        private String date() {
            String day = words.dayWithYear(visit.serviceDate());
            return visit.startedAt()
                    .flatMap(from -> visit.finishedAt()
                            .map(until -> words.text("date-and-times", day, words.time(from), words.time(until))))
                    .orElse(day);
        }

        private List<String> summary() {
            List<ReadingView> all = measured();
            if (all.isEmpty()) {
                return List.of(words.text("summary.nothing-measured"));
            }
            String outside = names(all.stream()
                    .filter(reading -> !ReportReadings.isInDoubt(reading))
                    .filter(reading -> isOutside(reading) && !dangers().contains(reading)));
            String doubtful = names(all.stream().filter(ReportReadings::isInDoubt));
            List<String> sentences = new ArrayList<>();
            String dangerous = names(dangers().stream());
            if (!dangerous.isEmpty()) {
                sentences.add(words.text("summary.danger", dangerous));
            }
            if (!outside.isEmpty()) {
                sentences.add(words.text("summary.outside", outside));
            }
            if (!doubtful.isEmpty()) {
                sentences.add(words.text("summary.doubtful", doubtful));
            }
            if (sentences.isEmpty()) {
                boolean sure =
                        all.stream().noneMatch(reading -> shown.meaning(reading).isPresent());
                String untold = names(all.stream().filter(reading -> isUntold(reading)));
                sentences.add(
                        !sure
                                ? words.text("summary.cannot-tell")
                                : untold.isEmpty()
                                        ? words.text("summary.well")
                                        : words.text("summary.no-target", untold));
            }
            return sentences;
        }

        private static boolean isOutside(ReadingView reading) {
            return switch (reading.assessment().verdict()) {
                case ABOVE, BELOW -> true;
                case INSIDE, UNDECIDED, NO_TARGET -> false;
            };
        }

        /** Of what kills, nothing is where it should be before somebody has said where that is. */
        private static boolean isUntold(ReadingView reading) {
            return RangeVerdict.kills(reading.quantity())
                    && reading.assessment().verdict() == VerdictCode.NO_TARGET;
        }

        private String names(Stream<ReadingView> chosen) {
            return chosen.map(ReadingView::quantity)
                    .distinct()
                    .sorted()
                    .map(words::quantity)
                    .collect(Collectors.joining(", "));
        }

        private List<ReadingView> measured() {
            return visit.systems().stream()
                    .flatMap(work -> work.readings().stream())
                    .filter(reading -> reading.answer() != Answer.NOT_MEASURED)
                    .toList();
        }

        /** What nobody should leave the animals with, as the visit left it. */
        private List<ReadingView> asked() {
            return visit.systems().stream()
                    .flatMap(work -> work.asked().stream())
                    .toList();
        }

        private List<ReadingView> dangers() {
            return asked().stream().filter(ReadingView::endangers).toList();
        }

        private Stream<String> danger(ReadingView reading) {
            boolean over = asked().stream()
                    .noneMatch(open ->
                            open.stated().place().equals(reading.stated().place()));
            return shown.danger(reading, over, visit.doneAbout(reading.id()));
        }

        private WaterSystem system(SystemWork work) {
            WaterSystemView system = systems.require(work.systemId());
            List<ReadingView> inOrder = work.readings().stream()
                    .sorted(Comparator.comparing(ReadingView::quantity))
                    .toList();
            Map<Place, ReadingView> before = before(work, inOrder);
            List<ReadingLine> lines = inOrder.stream()
                    .map(reading -> shown.line(reading, Optional.ofNullable(before.get(Place.of(reading)))))
                    .toList();
            List<DoubtNotice> doubts = inOrder.stream()
                    .filter(ReportReadings::isInDoubt)
                    .map(reading -> shown.notice(
                            reading,
                            visit.serviceDate(),
                            ramps.of(reading, visit.serviceDate()),
                            visit.doneAbout(reading.id()).isPresent()))
                    .toList();
            return new WaterSystem(
                    system.name(),
                    words.text("kind." + system.kind().name()),
                    words.volume(system.netVolume()),
                    lines,
                    Stream.concat(
                                    inOrder.stream().flatMap(this::danger),
                                    inOrder.stream().flatMap(reading -> shown.meaning(reading).stream()))
                            .toList(),
                    doubts,
                    done(work),
                    livestock(work));
        }

        /** What the time before found, quantity by quantity at each sample point. */
        private Map<Place, ReadingView> before(SystemWork work, List<ReadingView> taken) {
            Map<Place, ReadingView> before = new HashMap<>();
            taken.stream()
                    .map(ReadingView::takenAt)
                    .min(Comparator.naturalOrder())
                    .ifPresent(first -> readings.between(work.systemId(), first.minus(LONGEST_BEFORE), first).stream()
                            .filter(reading -> reading.visitId()
                                    .filter(visit.id().value()::equals)
                                    .isEmpty())
                            .forEach(reading -> before.put(Place.of(reading), reading)));
            return before;
        }

        private List<String> done(SystemWork work) {
            List<String> done = new ArrayList<>();
            work.topUp()
                    .flatMap(VisitView.TopUp::filledUp)
                    .ifPresent(volume -> done.add(words.text("done.top-up", words.volume(volume))));
            work.waterChange().ifPresent(change -> done.add(waterChange(change)));
            work.socks()
                    .forEach(socks -> done.add(
                            words.text("done.socks", socks.count(), socks.size().text())));
            work.feeding()
                    .ifPresent(feeding -> done.add(Stream.concat(
                                    Stream.of(words.text("done.feeding." + feeding.appetite())),
                                    feeding.note().stream())
                            .collect(Collectors.joining("; "))));
            work.doses()
                    .forEach(dose -> done.add(
                            words.text("done.dose", words.number(dose.amount()) + " " + dose.unit(), dose.product())));
            work.tasks().stream()
                    .filter(task -> task.state() == TaskState.DONE
                            && !isToldAlready(work, task.agreed().kind()))
                    .forEach(task -> done.add(words.text("done.task", words.task(task.agreed()))));
            work.tasks().stream()
                    .filter(task -> task.state() == TaskState.SKIPPED)
                    .forEach(task -> done.add(words.text(
                            "done.skipped",
                            words.task(task.agreed()),
                            task.skippedBecause().orElse(""))));
            return done;
        }

        /** Measuring shows in the table; the rest where an entry of its own says how much it was. */
        private static boolean isToldAlready(SystemWork work, TaskKind kind) {
            return switch (kind) {
                // Socks that were left stand with what was handed over.
                case TEST, SOCKS_LEFT -> true;
                case WATER_CHANGE -> work.waterChange().isPresent();
                case TOP_UP -> work.topUp().flatMap(VisitView.TopUp::filledUp).isPresent();
                case SOCK_SWAP -> !work.socks().isEmpty();
                case DOSE -> !work.doses().isEmpty();
                case MEDIA, WORK -> false;
            };
        }

        private String waterChange(VisitView.WaterChange change) {
            String volume = words.volume(change.out());
            return change.salinity()
                    .map(salinity -> {
                        String scale = change.gravityReference()
                                .map(reference -> change.salinityUnit().orElse("") + " " + reference)
                                .or(change::salinityUnit)
                                .orElse("");
                        String figure = salinity.toPlainString();
                        return words.text(
                                "done.water-change.matched",
                                volume,
                                scale.equals(MeasurementUnit.PRACTICAL_SALINITY.symbol())
                                        ? scale + " " + figure
                                        : figure + " " + scale);
                    })
                    .orElseGet(() -> words.text("done.water-change", volume));
        }

        private List<LivestockLine> livestock(SystemWork work) {
            Map<String, List<VisitView.Livestock>> byName = work.livestock().stream()
                    .collect(Collectors.groupingBy(VisitView.Livestock::name, LinkedHashMap::new, Collectors.toList()));
            List<LivestockLine> lines = new ArrayList<>();
            byName.forEach((name, seen) -> lines.add(new LivestockLine(
                    name.isBlank() ? words.text("livestock.unnamed") : name,
                    count(seen, LivestockChange.SEEN),
                    count(seen, LivestockChange.LOST),
                    remark(seen))));
            return lines;
        }

        private String count(List<VisitView.Livestock> seen, LivestockChange change) {
            int total = seen.stream()
                    .filter(line -> line.change() == change)
                    .mapToInt(VisitView.Livestock::count)
                    .sum();
            boolean said = seen.stream().anyMatch(line -> line.change() == change);
            return said ? Integer.toString(total) : words.text("livestock.not-said");
        }

        private @Nullable String remark(List<VisitView.Livestock> seen) {
            int added = seen.stream()
                    .filter(line -> line.change() == LivestockChange.NEW)
                    .mapToInt(VisitView.Livestock::count)
                    .sum();
            int missing = seen.stream()
                    .filter(line -> line.change() == LivestockChange.MISSING)
                    .mapToInt(VisitView.Livestock::count)
                    .sum();
            String remark = Stream.of(
                            added > 0 ? Stream.of(words.text("livestock.new", added)) : Stream.<String>of(),
                            missing > 0 ? Stream.of(words.text("livestock.missing", missing)) : Stream.<String>of(),
                            seen.stream()
                                    .flatMap(line -> line.found().stream())
                                    .map(found -> words.text("livestock.found", found)),
                            seen.stream()
                                    .flatMap(line -> line.remains().stream())
                                    .map(remains -> words.text("livestock.remains." + remains)),
                            seen.stream().flatMap(line -> line.note().stream()))
                    .flatMap(Function.identity())
                    .collect(Collectors.joining("; "));
            return remark.isEmpty() ? null : remark;
        }

        private List<String> siteWork() {
            Stream<String> lookedAt = visit.departure().stream()
                    .filter(line -> line.answer()
                            .filter(answer -> answer != VisitView.DepartureAnswer.NOT_HERE)
                            .isPresent())
                    .map(words::departure);
            Stream<String> handedOver = visit.handedOver().stream()
                    .map(line -> Stream.concat(
                                    Stream.of(words.text("handed-over." + line.what())), line.text().stream())
                            .collect(Collectors.joining(": ")));
            Stream<String> leftSo =
                    visit.running().stream().flatMap(each -> words.leftSo(each, name(each.systemId())).stream());
            return Stream.of(lookedAt, leftSo, handedOver)
                    .flatMap(lines -> lines)
                    .toList();
        }

        private String name(WaterSystemId system) {
            return visit.systems().stream()
                    .filter(work -> work.systemId().equals(system))
                    .map(VisitView.SystemWork::systemName)
                    .findFirst()
                    .orElse("");
        }

        private List<ServiceReport.Photo> photos() {
            return visit.photos().stream()
                    .filter(VisitView.Photo::arrived)
                    .map(photo -> {
                        String caption = photo.caption().isBlank() ? words.text("photo") : photo.caption();
                        return new ServiceReport.Photo(
                                picture(photo.fileId(), caption),
                                words.text("photo.at", caption, words.time(photo.at())));
                    })
                    .toList();
        }

        private Picture picture(FileId file, String alternativeText) {
            return new Picture(files.require(file).content(), alternativeText);
        }

        private List<String> advice() {
            List<String> advice = new ArrayList<>();
            dangers().stream().map(this::adviceInDanger).distinct().forEach(advice::add);
            if (!advice.isEmpty()) {
                advice.add(words.text("advice.veterinarian"));
            }
            boolean saltInDoubt = measured().stream()
                    .anyMatch(reading -> reading.quantity() == Quantity.SALINITY && ReportReadings.isInDoubt(reading));
            if (saltInDoubt) {
                advice.add(words.text("advice.no-salt"));
            }
            settings.phone().ifPresent(phone -> advice.add(words.text("advice.call", phone)));
            return advice;
        }

        /** What the first steps of the emergency leave to the client. */
        private String adviceInDanger(ReadingView reading) {
            String steps = Emergency.of(
                            reading.quantity(), reading.assessment().verdict(), systems.require(reading.systemId()))
                    .map(Emergency::name)
                    .orElse("OTHER");
            return words.text("advice.danger." + steps, words.quantity(reading.quantity()));
        }

        /** The next day on which somebody comes to any of the systems, with all that is agreed for that day. */
        private Optional<ServiceReport.NextVisit> nextVisit() {
            Optional<LocalDate> next = coming.values().stream()
                    .flatMap(List::stream)
                    .map(PlannedVisitView::dueOn)
                    .min(Comparator.naturalOrder());
            String asked = names(asked().stream());
            LocalDate tomorrow = visit.serviceDate().plusDays(1);
            if (!asked.isEmpty() && next.isEmpty()) {
                return Optional.of(new ServiceReport.NextVisit(
                        words.text("next.by", words.weekday(tomorrow)), List.of(words.text("next.danger", asked))));
            }
            return next.map(day -> {
                boolean before = !asked.isEmpty() && day.isAfter(tomorrow);
                Stream<String> first = asked.isEmpty()
                        ? Stream.of()
                        : Stream.of(
                                before
                                        ? words.text("next.danger.before", words.weekday(tomorrow), asked)
                                        : words.text("next.danger", asked));
                Stream<String> tasks = coming.values().stream()
                        .flatMap(List::stream)
                        .filter(due -> due.dueOn().equals(day))
                        .flatMap(due -> due.tasks().stream())
                        .map(words::task)
                        .distinct();
                Stream<String> again = measured().stream()
                        .filter(ReportReadings::isInDoubt)
                        .map(ReadingView::quantity)
                        .distinct()
                        .map(quantity -> words.text("next.measure-again", words.quantity(quantity)));
                return new ServiceReport.NextVisit(
                        words.weekday(day),
                        Stream.of(first, again, tasks)
                                .flatMap(Function.identity())
                                .toList());
            });
        }

        private String signedBy(VisitView.Signature signature) {
            return signature
                    .name()
                    .map(name -> signature.byLink()
                            ? words.text("signature.by-link", name, words.dayWithYear(dayOf(signature.at())))
                            : name)
                    .orElseGet(() -> words.text("signature." + signature.state()));
        }

        private LocalDate dayOf(Instant at) {
            return LocalDate.ofInstant(at, settings.zone());
        }

        private List<ServiceReport.Signature> signatures(String technician) {
            return visit.signature().stream()
                    .flatMap(signature -> Stream.of(
                            new ServiceReport.Signature(
                                    signature
                                            .drawing()
                                            .filter(files::exists)
                                            .map(file -> picture(
                                                    file,
                                                    words.text(
                                                            "signature.alternative",
                                                            signature.name().orElse(""))))
                                            .orElse(null),
                                    words.text("signature.for", site.clientName(), signedBy(signature))),
                            new ServiceReport.Signature(
                                    null, words.text("signature.for", settings.name(), technician))))
                    .toList();
        }
    }
}
