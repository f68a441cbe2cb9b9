package app.tankround.tablet.web;

import app.tankround.accounts.Days;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.clients.SiteService;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.instruments.InstrumentView;
import app.tankround.rounds.RoundService;
import app.tankround.tablet.EntryInbox;
import app.tankround.tablet.OpenEntries;
import app.tankround.tablet.TabletDevices;
import app.tankround.tablet.TabletDevices.DeviceView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.MeasurementUnit;
import app.tankround.visits.VisitId;
import app.tankround.visits.VisitService;
import app.tankround.visits.VisitView;
import app.tankround.web.EntryAnswer;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import app.tankround.web.TextInput;
import jakarta.servlet.http.HttpServletResponse;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import tools.jackson.databind.JsonNode;

/** What stands open of what was entered at tanks, and the devices it comes from. */
@Controller
class TabletsController {

    private static final int LONGEST_REASON = 500;

    /** As many as somebody settles in one sitting; the next ones come after them. */
    private static final int MOST_REFUSED = 50;

    private static final Pattern ID = Pattern.compile("[0-9a-f]{8}-[0-9a-f-]{27}");

    private static final Pattern CHOICE = Pattern.compile("[A-Z][A-Z_]+");

    /** A reading that is a plain value, as most are. */
    private static final String PLAIN = "VALUE";

    /** What stands beside what was said, or with it. */
    private static final Set<String> BESIDE = Set.of("quantity", "system", "line", "unit");

    /** One of the values of a field. */
    record Value(UUID entry, String said, String by, String at) {}

    record Contested(VisitId visit, String site, String day, String field, String what, List<Value> values) {}

    record Refused(
            UUID entry,
            @Nullable VisitId visit,
            String site,
            String what,
            String said,
            String why,
            String by,
            String at) {}

    /**
     * @param holds sites of the newest day that it took along
     * @param unfinished visits of its person that were begun and not finished
     */
    record Device(
            DeviceView device,
            String person,
            String lastSeen,
            String day,
            List<String> holds,
            List<Unfinished> unfinished,
            String bar) {}

    record Unfinished(VisitId visit, String site, String day) {}

    private final OpenEntries open;
    private final EntryInbox inbox;
    private final TabletDevices devices;
    private final VisitService visits;
    private final RoundService rounds;
    private final SiteService sites;
    private final WaterSystems systems;
    private final InstrumentRegister instruments;
    private final People people;
    private final Days days;
    private final MessageSource messages;

    TabletsController(
            OpenEntries open,
            EntryInbox inbox,
            TabletDevices devices,
            VisitService visits,
            RoundService rounds,
            SiteService sites,
            WaterSystems systems,
            InstrumentRegister instruments,
            People people,
            Days days,
            MessageSource messages) {
        this.open = open;
        this.inbox = inbox;
        this.devices = devices;
        this.visits = visits;
        this.rounds = rounds;
        this.sites = sites;
        this.systems = systems;
        this.instruments = instruments;
        this.people = people;
        this.days = days;
        this.messages = messages;
    }

    @GetMapping("/tablets")
    String page(Model model, Locale locale) {
        model.addAttribute(
                "contested",
                open.contested().stream()
                        .flatMap(visit -> contested(visit, locale))
                        .toList());
        List<OpenEntries.RefusedEntry> refused = open.refused(MOST_REFUSED + 1);
        model.addAttribute(
                "refused",
                refused.stream()
                        .limit(MOST_REFUSED)
                        .map(entry -> refused(entry, locale))
                        .toList());
        model.addAttribute("moreRefused", refused.size() > MOST_REFUSED);
        model.addAttribute(
                "devices",
                devices.all().stream().map(device -> device(device, locale)).toList());
        return "tablet/tablets";
    }

    /** Somebody decides between two values. */
    @PostMapping("/tablets/decide")
    String decide(
            @RequestParam VisitId visit,
            @RequestParam String field,
            @RequestParam UUID seen,
            @RequestParam UUID chosen,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        try {
            EntryAnswer answer = inbox.take(open.decision(visit, field, seen, chosen));
            if (answer.status() == EntryAnswer.Status.REFUSED) {
                return again(visit + field, String.valueOf(answer.args().get("words")), "", model, locale);
            }
            redirect.addFlashAttribute("flash", "tablet.entries.chosen");
            return "redirect:/tablets";
        } catch (StaleVersion changed) {
            response.setStatus(HttpStatus.CONFLICT.value());
            return again(visit + field, text("tablet.entries.stale", locale), "", model, locale);
        }
    }

    /** Somebody has seen to a refused entry. */
    @PostMapping("/tablets/entries/{id}")
    String settle(
            @PathVariable UUID id,
            @RequestParam(defaultValue = "") String why,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        return because(id.toString(), why, model, locale, redirect, reason -> {
            open.settle(id, reason);
            return "tablet.entries.settled";
        });
    }

    @PostMapping("/tablets/devices/{id}/bar")
    String bar(
            @PathVariable String id,
            @RequestParam(defaultValue = "") String why,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        return because(
                id,
                why,
                model,
                locale,
                redirect,
                reason -> devices.bar(id, reason) ? "tablet.devices.barred" : "tablet.devices.barred-already");
    }

    @PostMapping("/tablets/devices/{id}/admit")
    String admit(@PathVariable String id, RedirectAttributes redirect) {
        redirect.addFlashAttribute(
                "flash", devices.admit(id) ? "tablet.devices.admitted" : "tablet.devices.admitted-already");
        return "redirect:/tablets";
    }

    /** @param act does it for a reason, and says by a message code what was done */
    private String because(
            String place,
            String why,
            Model model,
            Locale locale,
            RedirectAttributes redirect,
            Function<String, String> act) {
        String reason;
        try {
            reason = TextInput.inWords("why", TextInput.required("why", why, LONGEST_REASON));
        } catch (FieldRefusal refusal) {
            String said = messages.getMessage(refusal.code(), refusal.args().toArray(), refusal.code(), locale);
            return again(place, String.valueOf(said), why, model, locale);
        }
        redirect.addFlashAttribute("flash", act.apply(reason));
        return "redirect:/tablets";
    }

    /** The page with what was wrong, beside the form that it is of. */
    private String again(String place, String problem, String typed, Model model, Locale locale) {
        model.addAttribute("place", place);
        model.addAttribute("problem", problem);
        model.addAttribute("typed", typed);
        return page(model, locale);
    }

    private Stream<Contested> contested(VisitView visit, Locale locale) {
        return visit.fields().entrySet().stream()
                .filter(field -> !field.getValue().conflicts().isEmpty())
                .map(field -> {
                    VisitView.Field kept = field.getValue();
                    List<Value> values = new ArrayList<>();
                    values.add(new Value(
                            kept.entryId(), said(kept.body()), name(kept.author()), days.moment(kept.at(), locale)));
                    kept.conflicts()
                            .forEach(other -> values.add(new Value(
                                    other.entryId(),
                                    said(other.body()),
                                    name(other.author()),
                                    days.moment(other.at(), locale))));
                    return new Contested(
                            visit.id(),
                            sites.require(visit.siteId()).name(),
                            Days.day(visit.serviceDate(), locale),
                            field.getKey(),
                            what(kept.kind(), kept.body(), locale),
                            values);
                });
    }

    private Refused refused(OpenEntries.RefusedEntry entry, Locale locale) {
        Optional<VisitView> visit = entry.visit().flatMap(visits::find);
        boolean givenUp = entry.body().path("kind").isString();
        return new Refused(
                entry.id(),
                visit.map(VisitView::id).orElse(null),
                visit.map(at -> sites.require(at.siteId()).name()).orElse(""),
                what(givenUp ? entry.body().path("kind").stringValue() : entry.kind(), entry.body(), locale),
                givenUp ? "" : said(entry.body()),
                entry.words(),
                name(entry.author()),
                days.moment(entry.at(), locale));
    }

    private Device device(DeviceView device, Locale locale) {
        List<String> holds = device.dayTaken()
                .map(day -> rounds.forTechnician(device.person(), day).stream()
                        .flatMap(round -> round.stops().stream())
                        .map(stop -> sites.require(stop.siteId()).name())
                        .distinct()
                        .toList())
                .orElse(List.of());
        List<Unfinished> unfinished = device.dayTaken()
                .map(day -> visits.byTechnician(device.person(), day).stream()
                        .filter(visit -> visit.finishedAt().isEmpty())
                        .map(visit -> new Unfinished(
                                visit.id(), sites.require(visit.siteId()).name(), Days.day(day, locale)))
                        .toList())
                .orElse(List.of());
        return new Device(
                device,
                name(device.person()),
                days.moment(device.lastSeenAt(), locale),
                device.dayTaken().map(day -> Days.day(day, locale)).orElse(""),
                holds,
                unfinished,
                device.barred()
                        .map(bar -> messages.getMessage(
                                "tablet.devices.bar",
                                new Object[] {
                                    days.moment(bar.at(), locale),
                                    bar.by().map(this::name).orElse(""),
                                    bar.because()
                                },
                                locale))
                        .orElse(""));
    }

    /** What kind of thing it is, with what was measured and where. */
    private String what(String kind, JsonNode body, Locale locale) {
        String name = messages.getMessage("tablet.kind." + kind, null, kind, locale);
        Stream<String> more = Stream.of(
                        Optional.of(body.path("quantity").asString(""))
                                .filter(quantity -> !quantity.isEmpty())
                                .map(quantity -> messages.getMessage("quantity." + quantity, null, quantity, locale)),
                        Optional.of(body.path("system").asString(""))
                                .filter(system -> ID.matcher(system).matches())
                                .flatMap(system -> systems.find(WaterSystemId.parse(system)))
                                .map(WaterSystemView::name))
                .flatMap(Optional::stream);
        return Stream.concat(Stream.of(name), more).collect(Collectors.joining(", "));
    }

    /**
     * What an entry says as a person would: without ids and the names of things that stand beside it, with its unit after a
     * value, and the code of the instrument that showed it.
     */
    private String said(JsonNode body) {
        String unit = MeasurementUnit.ofCode(body.path("unit").asString(""))
                .map(MeasurementUnit::symbol)
                .orElse(body.path("unit").asString(""));
        return body.properties().stream()
                .filter(member -> !BESIDE.contains(member.getKey()))
                .map(member -> {
                    String value = member.getValue().asString("");
                    if (member.getKey().equals("value")) {
                        return (value + " " + unit).strip();
                    }
                    if (member.getKey().equals("instrument")
                            && ID.matcher(value).matches()) {
                        return instruments
                                .find(InstrumentId.parse(value))
                                .map(InstrumentView::code)
                                .orElse("");
                    }
                    // A note stays as it was typed.
                    String words = member.getKey().equals("text") ? value : inWords(value);
                    return ID.matcher(value).matches() || value.equals(PLAIN) ? "" : words;
                })
                .filter(value -> !value.isBlank())
                .collect(Collectors.joining(", "));
    }

    /** Of a choice its name as words; anything else as it was typed. */
    private static String inWords(String value) {
        return CHOICE.matcher(value).matches() ? value.toLowerCase(Locale.ROOT).replace('_', ' ') : value;
    }

    private String text(String code, Locale locale) {
        return messages.getMessage(code, null, locale);
    }

    private String name(PersonId id) {
        return people.find(id).map(PersonView::name).orElse("");
    }
}
