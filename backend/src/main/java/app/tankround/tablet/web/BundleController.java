package app.tankround.tablet.web;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.Role;
import app.tankround.tablet.DayBundle;
import app.tankround.tablet.DayBundle.Device;
import app.tankround.tablet.DayBundle.VisitDay;
import app.tankround.tablet.PageWords;
import app.tankround.tablet.RoundsTaken;
import app.tankround.tablet.TabletDevices;
import app.tankround.visits.LoneWorking;
import app.tankround.visits.VisitId;
import app.tankround.web.NotFound;
import jakarta.servlet.http.HttpServletRequest;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.springframework.http.CacheControl;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;

/** A technician's day in one piece, and the words of the page. */
@RestController
class BundleController {

    /** @param technician empty where nobody drives there */
    record VisitDayJson(String date, String technician) {}

    private final DayBundle bundle;
    private final TabletDevices devices;
    private final RoundsTaken taken;
    private final PageWords words;
    private final LoneWorking alone;
    private final CurrentPerson currentPerson;

    BundleController(
            DayBundle bundle,
            TabletDevices devices,
            RoundsTaken taken,
            PageWords words,
            LoneWorking alone,
            CurrentPerson currentPerson) {
        this.bundle = bundle;
        this.devices = devices;
        this.taken = taken;
        this.words = words;
        this.alone = alone;
        this.currentPerson = currentPerson;
    }

    /**
     * @param technician whose day; only the office may ask for another's
     * @param visit that comes along whoever's day it is of
     * @param device that asks, and is told up to where the server holds all of its entries
     * @param first sequence that the device could send again
     * @param waiting how many entries the device has not sent
     */
    @GetMapping("/api/bundles/{date}")
    ResponseEntity<Map<String, Object>> day(
            @PathVariable LocalDate date,
            @RequestParam Optional<PersonId> technician,
            @RequestParam Optional<VisitId> visit,
            @RequestParam Optional<String> device,
            @RequestParam(defaultValue = "1") long first,
            @RequestParam Optional<Integer> waiting,
            HttpServletRequest request,
            Locale locale) {
        PersonView person = currentPerson.require();
        PersonId whose = technician.orElse(person.id());
        if (person.role() == Role.TECHNICIAN && !whose.equals(person.id())) {
            throw new NotFound("bundle", whose);
        }
        Optional<TabletDevices.Sign> sign =
                device.map(id -> new TabletDevices.Sign(id, waiting, EntriesController.browserOf(request)));
        sign.ifPresent(seen ->
                devices.seen(seen, person.id(), whose.equals(person.id()) ? Optional.of(date) : Optional.empty()));
        Map<String, Object> day = bundle.of(whose, date, visit, device.map(id -> new Device(id, first)), locale);
        sign.filter(TabletDevices.Sign::isReadable)
                .ifPresent(seen -> taken.taken(seen.id(), person.id(), DayBundle.rounds(day)));
        return ResponseEntity.ok().cacheControl(CacheControl.noStore()).body(day);
    }

    /** The day that a visit, started or planned, belongs to. */
    @GetMapping("/api/visits/{id}/day")
    VisitDayJson day(@PathVariable VisitId id) {
        VisitDay day = bundle.dayOf(id);
        return new VisitDayJson(
                day.date().toString(), day.technician().map(PersonId::toString).orElse(""));
    }

    /** Where the person is in, as the office knows it: whoever checked out by telephone is told by an open page. */
    @GetMapping("/api/alone/open")
    List<Map<String, String>> alone() {
        return alone.openOf(currentPerson.require().id()).stream()
                .map(stay -> Map.of(
                        "id", stay.id().toString(), "until", stay.latestReturn().toString()))
                .toList();
    }

    @GetMapping("/api/words/tablet")
    Map<String, String> words(Locale locale) {
        return words.in(locale);
    }
}
