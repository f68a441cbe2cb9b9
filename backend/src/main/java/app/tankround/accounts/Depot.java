package app.tankround.accounts;

import org.springframework.data.annotation.Id;
import org.springframework.data.annotation.Version;

/** A base of the business; its place is its site. */
record Depot(
        @Id DepotId id, String code, String name, @Version int version) {

    DepotView view() {
        return new DepotView(id, code, name, version);
    }
}
