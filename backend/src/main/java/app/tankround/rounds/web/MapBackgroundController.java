package app.tankround.rounds.web;

import app.tankround.rounds.MapBackground;
import app.tankround.rounds.MapBackgrounds;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import app.tankround.web.VersionedForm;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** The page on which the office says from where the pictures behind the maps come. */
@Controller
class MapBackgroundController {

    /** As typed. */
    record BackgroundForm(
            int version,
            @Nullable String address,
            @Nullable String attribution,
            @Nullable String mostZoom) implements VersionedForm<BackgroundForm> {

        static BackgroundForm of(MapBackground stored) {
            return new BackgroundForm(
                    stored.version(),
                    stored.address().orElse(""),
                    stored.attribution().orElse(""),
                    String.valueOf(stored.mostZoom()));
        }

        @Override
        public BackgroundForm withVersion(int newest) {
            return new BackgroundForm(newest, address, attribution, mostZoom);
        }
    }

    private final MapBackgrounds backgrounds;

    MapBackgroundController(MapBackgrounds backgrounds) {
        this.backgrounds = backgrounds;
    }

    @GetMapping("/rounds/map")
    String show(Model model) {
        model.addAttribute("form", BackgroundForm.of(backgrounds.current()));
        return "rounds/map";
    }

    @PostMapping("/rounds/map")
    String change(
            @ModelAttribute("form") BackgroundForm form,
            BindingResult result,
            Model model,
            HttpServletResponse response,
            RedirectAttributes redirect,
            Locale locale) {
        Optional<Integer> zoom =
                new FormReader(result, locale).requiredWhole("mostZoom", form.mostZoom(), 1, MapBackground.CLOSEST);
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        zoom,
                        most -> backgrounds.change(
                                Optional.ofNullable(form.address()),
                                Optional.ofNullable(form.attribution()),
                                most,
                                form.version()),
                        () -> BackgroundForm.of(backgrounds.current()))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/rounds/map";
        }
        return "rounds/map";
    }
}
