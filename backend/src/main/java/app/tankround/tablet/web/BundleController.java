package app.tankround.tablet.web;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.Role;
import app.tankround.tablet.DayBundle;
import app.tankround.tablet.PageWords;
import app.tankround.web.NotFound;
import java.time.LocalDate;
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

    private final DayBundle bundle;
    private final PageWords words;
    private final CurrentPerson currentPerson;

    BundleController(DayBundle bundle, PageWords words, CurrentPerson currentPerson) {
        this.bundle = bundle;
        this.words = words;
        this.currentPerson = currentPerson;
    }

    /** @param technician whose day; only the office may ask for another's */
    @GetMapping("/api/bundles/{date}")
    ResponseEntity<Map<String, Object>> day(
            @PathVariable LocalDate date, @RequestParam Optional<PersonId> technician, Locale locale) {
        PersonView person = currentPerson.require();
        PersonId whose = technician.orElse(person.id());
        if (person.role() == Role.TECHNICIAN && !whose.equals(person.id())) {
            throw new NotFound("bundle", whose);
        }
        return ResponseEntity.ok().cacheControl(CacheControl.noStore()).body(bundle.of(whose, date, locale));
    }

    @GetMapping("/api/words/tablet")
    Map<String, String> words(Locale locale) {
        return words.in(locale);
    }
}
