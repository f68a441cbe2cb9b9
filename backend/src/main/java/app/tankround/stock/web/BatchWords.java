package app.tankround.stock.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.Days;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.instruments.InstrumentRegister;
import app.tankround.readings.ReadingService;
import app.tankround.readings.ReadingView;
import app.tankround.readings.UnmeasuredWater;
import app.tankround.readings.VerdictWords;
import app.tankround.stock.UnmeasuredBatches;
import app.tankround.stock.WaterBatchView;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.units.Quantity;
import app.tankround.units.UnitSystem;
import app.tankround.units.Volume;
import app.tankround.web.MassText;
import app.tankround.web.NumberText;
import java.math.BigDecimal;
import java.text.NumberFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** Batches of water in words. */
@Component
class BatchWords implements UnmeasuredWater {

    /**
     * A batch in words.
     *
     * @param measured what it was measured to be, or that it never was though it was let out; null until either
     * @param released when and by whom; null until it is let out
     * @param why it was let out although nothing may rest on what was measured, or nothing was; empty where all was well
     * @param unmeasured whether it was let out and nobody has measured it
     */
    record Line(
            WaterBatchView batch,
            String madeIn,
            String volume,
            String salt,
            String target,
            String made,
            @Nullable String measured,
            @Nullable String released,
            String why,
            boolean unmeasured) {

        /** When, by whom, and why if that needs saying; empty until it is let out. */
        public String releasedAndWhy() {
            return Stream.of(released == null ? "" : released, why)
                    .filter(part -> !part.isEmpty())
                    .collect(Collectors.joining(". "));
        }
    }

    private final UnmeasuredBatches unmeasured;
    private final ReadingService readings;
    private final InstrumentRegister instruments;
    private final WaterSystems systems;
    private final People people;
    private final VerdictWords words;
    private final BusinessProfile business;
    private final Days days;
    private final MessageSource messages;

    BatchWords(
            UnmeasuredBatches unmeasured,
            ReadingService readings,
            InstrumentRegister instruments,
            WaterSystems systems,
            People people,
            VerdictWords words,
            BusinessProfile business,
            Days days,
            MessageSource messages) {
        this.unmeasured = unmeasured;
        this.readings = readings;
        this.instruments = instruments;
        this.systems = systems;
        this.people = people;
        this.words = words;
        this.business = business;
        this.days = days;
        this.messages = messages;
    }

    @Override
    public List<UnmeasuredWater.Line> open(Locale locale) {
        return unmeasured.open().stream()
                .flatMap(batch -> batch.release().stream().map(release -> open(batch, release, locale)))
                .toList();
    }

    private UnmeasuredWater.Line open(WaterBatchView batch, WaterBatchView.Release release, Locale locale) {
        Line line = line(batch, locale);
        return new UnmeasuredWater.Line(
                "/stock/batches/" + batch.id(),
                messages.getMessage(
                        "stock.batch.unmeasured.what",
                        new Object[] {Integer.toString(batch.number()), line.volume(), batch.container(), line.target()
                        },
                        locale),
                line.releasedAndWhy(),
                release.reading().isPresent() && line.measured() != null ? line.measured() : "",
                release.decision());
    }

    Line line(WaterBatchView batch, Locale locale) {
        Optional<ReadingView> reading =
                batch.release().flatMap(WaterBatchView.Release::reading).flatMap(readings::find);
        boolean never = batch.release().isPresent() && reading.isEmpty();
        return new Line(
                batch,
                systems.find(batch.madeIn()).map(WaterSystemView::name).orElse(""),
                volume(batch.volume(), locale),
                batch.salt()
                        .map(salt -> new MassText(locale, business.current().unitSystem()).of(salt))
                        .orElseGet(() -> word("stock.batch.no-salt", locale)),
                target(batch, locale),
                days.moment(batch.madeAt(), locale) + by(batch.madeBy()),
                reading.map(read -> measured(read, locale))
                        .orElse(never ? word("stock.batch.unmeasured", locale) : null),
                batch.release()
                        .map(release -> days.moment(release.at(), locale) + by(release.by()))
                        .orElse(null),
                batch.release()
                        .flatMap(release -> release.reason()
                                .map(reason -> messages.getMessage(
                                        release.unmeasured()
                                                ? "stock.batch.unmeasured.why"
                                                : "stock.batch.all-the-same",
                                        new Object[] {reason},
                                        locale)))
                        .orElse(""),
                never);
    }

    String measured(ReadingView reading, Locale locale) {
        String with = reading.instrumentId()
                .flatMap(instruments::find)
                .map(each -> ", " + each.code())
                .orElse("");
        String corrected =
                words.corrected(reading, locale).map(real -> ", " + real).orElse("");
        return words.asWritten(reading, locale) + with + corrected;
    }

    String by(Optional<PersonId> person) {
        return person.flatMap(people::find)
                .map(PersonView::name)
                .map(name -> ", " + name)
                .orElse("");
    }

    private String target(WaterBatchView batch, Locale locale) {
        String high = plain(batch.targetHigh(), locale);
        if (batch.quantity() == Quantity.SALINITY) {
            String low = batch.targetLow().map(limit -> plain(limit, locale)).orElse("0");
            return messages.getMessage("stock.batch.target.salinity", new Object[] {low, high}, locale);
        }
        return messages.getMessage("stock.batch.target.dissolved", new Object[] {high}, locale);
    }

    private static String plain(BigDecimal number, Locale locale) {
        return NumberText.plain(number, locale);
    }

    String volume(Volume volume, Locale locale) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMaximumFractionDigits(1);
        return business.current().unitSystem() == UnitSystem.US_CUSTOMARY
                ? format.format(volume.inUsGallons()) + " gal"
                : format.format(volume.litres()) + " L";
    }

    private String word(String key, Locale locale) {
        return messages.getMessage(key, null, locale);
    }
}
