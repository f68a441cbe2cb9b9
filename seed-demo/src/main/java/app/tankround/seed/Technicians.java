package app.tankround.seed;

import app.tankround.accounts.PersonId;
import java.util.List;

/** Who drives which van. */
record Technicians(PersonId ofFirst, PersonId ofSecond) {

    static final List<Integer> VANS = List.of(1, 2);

    PersonId of(int van) {
        return van == 1 ? ofFirst : ofSecond;
    }
}
