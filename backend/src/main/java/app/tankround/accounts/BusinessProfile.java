package app.tankround.accounts;

import app.tankround.persistence.TransactionMemory;
import app.tankround.persistence.Uuids;
import app.tankround.units.GravityReference;
import app.tankround.units.UnitSystem;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.time.Clock;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.support.TransactionSynchronizationManager;

/** The settings of the business. */
@Service
public class BusinessProfile {

    private static final int LONGEST_NAME = 120;
    private static final double SMALLEST_YIELD = 0.5;

    private final Businesses businesses;
    private final ChangeLog changeLog;
    private final Clock clock;

    BusinessProfile(Businesses businesses, ChangeLog changeLog, Clock clock) {
        this.businesses = businesses;
        this.changeLog = changeLog;
        this.clock = clock;
    }

    /** The settings, read once in a transaction: what is worked out in it rests on one state of them. */
    public Optional<BusinessSettings> find() {
        return TransactionSynchronizationManager.isActualTransactionActive()
                ? TransactionMemory.of(this, this::read)
                : read();
    }

    private Optional<BusinessSettings> read() {
        return businesses.findAll().stream().findFirst().map(Business::settings);
    }

    /** @throws IllegalStateException before the first owner has set up the business */
    public BusinessSettings current() {
        return find().orElseThrow(() -> new IllegalStateException("the business is not set up yet"));
    }

    /** Where the business counts its days; UTC before it is set up. */
    public ZoneId zone() {
        return find().map(BusinessSettings::zone).orElse(ZoneOffset.UTC);
    }

    /** In which units the business writes; metric before it is set up. */
    public UnitSystem unitSystem() {
        return find().map(BusinessSettings::unitSystem).orElse(UnitSystem.METRIC);
    }

    /**
     * Sets up the business, or changes it.
     *
     * @throws FieldRefusal for a missing name, a yield outside 0.5 to 1, or an unknown gravity reference
     * @throws StaleVersion if somebody else changed it meanwhile
     */
    @Transactional
    public void save(BusinessSettings settings) {
        String name = settings.name().strip();
        if (name.isEmpty() || name.length() > LONGEST_NAME) {
            throw new FieldRefusal("name", "accounts.name-length", name, 1, LONGEST_NAME);
        }
        if (!(settings.saltYield() >= SMALLEST_YIELD && settings.saltYield() <= 1)) {
            throw new FieldRefusal("saltYield", "accounts.salt-yield-range", settings.saltYield(), SMALLEST_YIELD, 1);
        }
        try {
            GravityReference.parse(settings.gravityReference());
        } catch (IllegalArgumentException unknown) {
            throw new FieldRefusal(
                    "gravityReference", "accounts.gravity-reference-unknown", settings.gravityReference());
        }
        Optional<Business> stored = businesses.findAll().stream().findFirst();
        if (stored.isPresent() && stored.get().version() != settings.version()) {
            throw new StaleVersion("/settings", stored.get().settings(), settings);
        }
        var id = stored.map(Business::id).orElseGet(() -> Uuids.next(clock.instant()));
        Business saved = Business.of(id, settings);
        businesses.save(saved);
        TransactionMemory.forget(this);
        changeLog.record(
                "business",
                id,
                stored.isPresent() ? "changed" : "set-up",
                stored.map(before -> ChangedFields.between(before, saved)).orElseGet(() -> Map.of("name", name)));
    }
}
