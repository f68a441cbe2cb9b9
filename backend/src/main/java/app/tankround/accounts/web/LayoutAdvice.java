package app.tankround.accounts.web;

import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonView;
import app.tankround.web.NavigationItem;
import java.util.Comparator;
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
    private final List<NavigationItem> items;

    LayoutAdvice(CurrentPerson currentPerson, List<NavigationItem> items) {
        this.currentPerson = currentPerson;
        this.items = items.stream()
                .sorted(Comparator.comparingInt(NavigationItem::order))
                .toList();
    }

    @ModelAttribute
    void layout(Model model) {
        Optional<PersonView> person = currentPerson.find();
        model.addAttribute("navigation", person.map(this::visibleTo).orElse(List.of()));
        @Nullable String name = person.map(PersonView::name).orElse(null);
        model.addAttribute("person", name);
        model.addAttribute("office", person.map(LayoutAdvice::isOffice).orElse(false));
    }

    private List<NavigationItem> visibleTo(PersonView person) {
        return items.stream()
                .filter(item -> item.roles().contains(person.role().name()))
                .toList();
    }

    private static boolean isOffice(PersonView person) {
        return switch (person.role()) {
            case OWNER, OFFICE -> true;
            case TECHNICIAN, CLIENT -> false;
        };
    }
}
