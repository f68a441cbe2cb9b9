package app.tankround.accounts.web;

import app.tankround.accounts.PersonView;
import app.tankround.web.NavigationItem;
import java.util.Comparator;
import java.util.List;
import org.springframework.stereotype.Component;

/** The main navigation, as each person sees it. */
@Component
class Navigation {

    private final List<NavigationItem> items;

    Navigation(List<NavigationItem> items) {
        this.items = items.stream()
                .sorted(Comparator.comparingInt(NavigationItem::order))
                .toList();
    }

    List<NavigationItem> visibleTo(PersonView person) {
        return items.stream()
                .filter(item -> item.roles().contains(person.role().name()))
                .toList();
    }
}
