package app.tankround.rounds.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.web.DistanceText;
import java.util.Locale;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ModelAttribute;

/** Gives every page of rounds the words for distances. */
@ControllerAdvice(basePackageClasses = RoundDistances.class)
class RoundDistances {

    private final BusinessProfile business;

    RoundDistances(BusinessProfile business) {
        this.business = business;
    }

    @ModelAttribute("distances")
    DistanceText distances(Locale locale) {
        return new DistanceText(locale, business.unitSystem());
    }
}
