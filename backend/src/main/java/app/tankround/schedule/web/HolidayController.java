package app.tankround.schedule.web;

import app.tankround.schedule.DueVisits;
import app.tankround.schedule.Holidays;
import app.tankround.web.SentForm;
import app.tankround.web.VersionedForm;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Whose public holidays the business keeps, and which they are. */
@Controller
class HolidayController {

    /** The code of a calendar as a select field sends it. */
    record HolidayForm(int version, @Nullable String code) implements VersionedForm<HolidayForm> {

        static HolidayForm of(Holidays.Kept kept) {
            return new HolidayForm(kept.version(), kept.code().orElse(null));
        }

        @Override
        public HolidayForm withVersion(int newest) {
            return new HolidayForm(newest, code);
        }

        Optional<String> chosen() {
            return Optional.ofNullable(code).filter(text -> !text.isBlank());
        }
    }

    private final Holidays holidays;
    private final DueVisits dueVisits;

    HolidayController(Holidays holidays, DueVisits dueVisits) {
        this.holidays = holidays;
        this.dueVisits = dueVisits;
    }

    @GetMapping("/holidays")
    String show(Model model) {
        model.addAttribute("form", HolidayForm.of(holidays.kept()));
        return page(model);
    }

    @PostMapping("/holidays")
    String keep(
            @ModelAttribute("form") HolidayForm form,
            BindingResult result,
            Model model,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        Optional.of(form),
                        read -> holidays.keep(read.chosen(), read.version()),
                        () -> HolidayForm.of(holidays.kept()))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/holidays";
        }
        return page(model);
    }

    private String page(Model model) {
        model.addAttribute("choices", holidays.choices());
        model.addAttribute("days", holidays.ofTwoYears(dueVisits.today().getYear()));
        return "schedule/holidays";
    }
}
