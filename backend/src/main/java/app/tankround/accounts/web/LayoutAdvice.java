package app.tankround.accounts.web;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonView;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ModelAttribute;

/** Gives every page its navigation and the name of whoever is signed in. */
@ControllerAdvice(annotations = Controller.class)
class LayoutAdvice {

    private final CurrentPerson currentPerson;
    private final Navigation navigation;

    LayoutAdvice(CurrentPerson currentPerson, Navigation navigation) {
        this.currentPerson = currentPerson;
        this.navigation = navigation;
    }

    @ModelAttribute
    void layout(Model model) {
        Optional<PersonView> person = currentPerson.find();
        model.addAttribute("navigation", person.map(navigation::visibleTo).orElse(List.of()));
        @Nullable String name = person.map(PersonView::name).orElse(null);
        model.addAttribute("person", name);
        model.addAttribute("office", person.map(LayoutAdvice::isOffice).orElse(false));
    }

    private static boolean isOffice(PersonView person) {
        return switch (person.role()) {
            case OWNER, OFFICE -> true;
            case TECHNICIAN, CLIENT -> false;
        };
    }
}
