package app.tankround.tanks;

import java.util.List;

/** What another module knows that speaks against ending a quarantine. */
public interface ReleaseHindrances {

    /** Shown as the message of its code. */
    record Hindrance(String code, List<String> args) {

        public Hindrance {
            args = List.copyOf(args);
        }
    }

    List<Hindrance> of(WaterSystemView system);
}
