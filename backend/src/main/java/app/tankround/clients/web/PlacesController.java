package app.tankround.clients.web;

import app.tankround.clients.PlaceCentres;
import app.tankround.clients.PlaceCentres.Centre;
import app.tankround.clients.PlaceCentres.Kind;
import app.tankround.clients.PlaceCentres.Place;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import app.tankround.web.VersionedForm;
import jakarta.servlet.http.HttpServletResponse;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Postal codes and towns by which sites without coordinates are planned. */
@Controller
class PlacesController {

    /** A middle as typed; both empty where it is guessed. */
    record PlaceForm(
            int version,
            @Nullable String latitude,
            @Nullable String longitude) implements VersionedForm<PlaceForm> {

        static PlaceForm of(Place place, Locale locale) {
            return new PlaceForm(
                    place.version(),
                    place.given()
                            .map(centre -> SiteForm.degrees(centre.latitude(), locale))
                            .orElse(null),
                    place.given()
                            .map(centre -> SiteForm.degrees(centre.longitude(), locale))
                            .orElse(null));
        }

        @Override
        public PlaceForm withVersion(int newest) {
            return new PlaceForm(newest, latitude, longitude);
        }
    }

    private final PlaceCentres centres;

    PlacesController(PlaceCentres centres) {
        this.centres = centres;
    }

    @GetMapping("/places")
    String list(Model model) {
        model.addAttribute("places", centres.all());
        return "clients/places";
    }

    @GetMapping("/places/centre/edit")
    String ask(@RequestParam Kind kind, @RequestParam String name, Model model, Locale locale) {
        Place place = centres.require(kind, name);
        model.addAttribute("place", place);
        model.addAttribute("form", PlaceForm.of(place, locale));
        return "clients/place-form";
    }

    @PostMapping("/places/centre/edit")
    String give(
            @RequestParam Kind kind,
            @RequestParam String name,
            @ModelAttribute("form") PlaceForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        var reader = new FormReader(result, locale);
        Optional<BigDecimal> north =
                reader.number("latitude", form.latitude(), BigDecimal.valueOf(-90), BigDecimal.valueOf(90));
        Optional<BigDecimal> east =
                reader.number("longitude", form.longitude(), BigDecimal.valueOf(-180), BigDecimal.valueOf(180));
        Optional<Optional<Centre>> wanted = reader.read(() -> {
            if (reader.accepted() && north.isPresent() != east.isPresent()) {
                throw new FieldRefusal(north.isPresent() ? "longitude" : "latitude", "clients.place.half");
            }
            return north.flatMap(
                    latitude -> east.map(longitude -> new Centre(latitude.doubleValue(), longitude.doubleValue())));
        });
        boolean saved = new SentForm(result, model, response)
                .saved(
                        form,
                        wanted.filter(read -> reader.accepted()),
                        read -> centres.give(kind, name, form.version(), read),
                        () -> PlaceForm.of(centres.require(kind, name), locale));
        if (saved) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/places";
        }
        model.addAttribute("place", centres.require(kind, name));
        return "clients/place-form";
    }
}
