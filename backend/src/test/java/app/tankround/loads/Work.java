package app.tankround.loads;

import app.tankround.accounts.DepotId;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.clients.SiteId;
import app.tankround.clients.SiteView;
import app.tankround.schedule.TaskView;
import app.tankround.stock.StockKind;
import app.tankround.stock.StockMass;
import app.tankround.tanks.InfectionClass;
import app.tankround.tanks.SystemKind;
import app.tankround.tanks.VolumeBasis;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.Mass;
import app.tankround.units.Salinity;
import app.tankround.units.SockSize;
import app.tankround.units.Volume;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** Invented work at one system: by default a healthy marine system of 1000 L at salinity 35, at a site with nothing. */
record Work(
        int position,
        SystemKind kind,
        InfectionClass infectionClass,
        double netVolume,
        double salinity,
        boolean tap,
        boolean roDi,
        boolean barrel,
        boolean acrylic,
        boolean glass,
        long days,
        double refill) {

    static Work at(int position) {
        return new Work(
                position, SystemKind.REEF, InfectionClass.HEALTHY, 1000, 35, false, false, false, false, true, 7, 0);
    }

    Work kind(SystemKind changed) {
        return new Work(
                position,
                changed,
                infectionClass,
                netVolume,
                salinity,
                tap,
                roDi,
                barrel,
                acrylic,
                glass,
                days,
                refill);
    }

    Work infection(InfectionClass changed) {
        return new Work(position, kind, changed, netVolume, salinity, tap, roDi, barrel, acrylic, glass, days, refill);
    }

    Work salinity(double changed) {
        return new Work(
                position, kind, infectionClass, netVolume, changed, tap, roDi, barrel, acrylic, glass, days, refill);
    }

    Work site(boolean ownTap, boolean ownRoDi, boolean mixingBarrel) {
        return new Work(
                position,
                kind,
                infectionClass,
                netVolume,
                salinity,
                ownTap,
                ownRoDi,
                mixingBarrel,
                acrylic,
                glass,
                days,
                refill);
    }

    Work panes(boolean hasAcrylic, boolean hasGlass) {
        return new Work(
                position,
                kind,
                infectionClass,
                netVolume,
                salinity,
                tap,
                roDi,
                barrel,
                hasAcrylic,
                hasGlass,
                days,
                refill);
    }

    /** Own RO/DI water, of which so many litres may be taken and are to be. */
    Work refills(double litres) {
        return new Work(
                position, kind, infectionClass, netVolume, salinity, tap, true, barrel, acrylic, glass, days, litres);
    }

    SystemWork does(TaskView... tasks) {
        return new SystemWork(
                position,
                new SiteView(
                        SiteId.of(new UUID(2, position)),
                        "S-" + position,
                        Optional.empty(),
                        Optional.empty(),
                        "Site " + position,
                        "Client",
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        52,
                        5,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        tap,
                        true,
                        roDi,
                        barrel,
                        refill > 0 ? Optional.of(Volume.ofLitres(refill)) : Optional.empty(),
                        1),
                new WaterSystemView(
                        WaterSystemId.of(new UUID(1, position)),
                        "W-" + position,
                        SiteId.of(new UUID(2, position)),
                        "System " + position,
                        kind,
                        infectionClass,
                        LocalDate.of(2026, 11, 1),
                        Volume.ofLitres(netVolume),
                        VolumeBasis.STATED,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        Volume.ofLitres(2),
                        Optional.empty(),
                        acrylic,
                        false,
                        true,
                        1),
                kind.isSalt() ? Optional.of(new SalinityGoal(Salinity.ofPractical(salinity), false)) : Optional.empty(),
                SuitableWater.ANY,
                glass,
                days,
                false,
                new RefillHere(refill, false),
                List.of(),
                SystemWork.once(List.of(tasks)));
    }

    /** A van that may carry 650 kg, 144 kg of it every day. */
    static VanView van(double drumLitres, double drumEmptyKg) {
        return new VanView(
                VanId.of(new UUID(3, 1)),
                "V-1",
                "Van 1",
                DepotId.of(new UUID(4, 1)),
                Mass.ofKilograms(650),
                Mass.ofKilograms(144),
                Optional.empty(),
                Volume.ofLitres(drumLitres),
                Mass.ofKilograms(drumEmptyKg),
                Optional.empty(),
                Optional.empty(),
                LocalTime.of(7, 20),
                1);
    }

    /** A stock that knows nothing: a sock is 0.3 kg, everything else 1 kg. */
    static Weights weights() {
        return new Weights() {
            @Override
            public StockMass of(StockKind kind, String name, BigDecimal amount, String unit) {
                return new StockMass(Mass.ofKilograms(1), true);
            }

            @Override
            public StockMass ofSocks(SockSize asked, int count) {
                return new StockMass(Mass.ofKilograms(0.3 * count), false);
            }
        };
    }
}
