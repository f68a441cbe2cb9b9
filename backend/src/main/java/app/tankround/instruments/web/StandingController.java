package app.tankround.instruments.web;

import app.tankround.accounts.CurrentPerson;
import app.tankround.instruments.InstrumentId;
import app.tankround.instruments.InstrumentStandings;
import app.tankround.instruments.Standing;
import app.tankround.web.FieldRefusal;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** What people say about an instrument on its page: dropped, at odds with another, repaired. */
@Controller
class StandingController {

    private final InstrumentStandings standings;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    StandingController(InstrumentStandings standings, CurrentPerson currentPerson, Clock clock) {
        this.standings = standings;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    @PostMapping("/instruments/{id}/dropped")
    String dropped(@PathVariable InstrumentId id, RedirectAttributes redirect) {
        return said(id, standings.dropped(id, clock.instant(), currentPerson.id(), Optional.empty()), redirect);
    }

    @PostMapping("/instruments/{id}/disagreed")
    String disagreed(
            @PathVariable InstrumentId id,
            @RequestParam(required = false) @Nullable String note,
            RedirectAttributes redirect) {
        try {
            return said(
                    id,
                    standings.disagreed(id, clock.instant(), currentPerson.id(), Optional.ofNullable(note)),
                    redirect);
        } catch (FieldRefusal refusal) {
            return refused(id, "disagree", note, refusal, redirect);
        }
    }

    @PostMapping("/instruments/{id}/put-back")
    String putBack(
            @PathVariable InstrumentId id,
            @RequestParam(required = false) @Nullable String reason,
            RedirectAttributes redirect) {
        try {
            standings.putBack(
                    id, currentPerson.id(), Optional.ofNullable(reason).orElse(""));
            redirect.addFlashAttribute("flash", "instruments.put-back.done");
            return page(id);
        } catch (FieldRefusal refusal) {
            return refused(id, "put-back", reason, refusal, redirect);
        }
    }

    private static String said(InstrumentId id, Standing standing, RedirectAttributes redirect) {
        redirect.addFlashAttribute(
                "flash",
                switch (standing) {
                    case SUSPECT -> "instruments.drop.said";
                    case CONDEMNED -> "instruments.drop.already";
                    case IN_USE -> "instruments.drop.checked";
                });
        return page(id);
    }

    /** The page shows at the form what was refused, with what was typed. */
    private static String refused(
            InstrumentId id, String form, @Nullable String typed, FieldRefusal refusal, RedirectAttributes redirect) {
        redirect.addFlashAttribute("refusedForm", form);
        redirect.addFlashAttribute("refusedText", typed);
        redirect.addFlashAttribute("refusedCode", refusal.code());
        redirect.addFlashAttribute("refusedArguments", List.copyOf(refusal.args()));
        return page(id);
    }

    private static String page(InstrumentId id) {
        return "redirect:/instruments/" + id;
    }
}
