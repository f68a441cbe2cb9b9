package app.tankround.socks.web;

import app.tankround.socks.SockWashing;
import app.tankround.web.FormReader;
import app.tankround.web.VersionedForm;
import java.time.DayOfWeek;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** How the socks are washed, as typed. */
record WashingForm(
        int version,
        List<String> washDays,
        @Nullable String hoursUntilClean,
        @Nullable String socksInLoad,
        @Nullable String loadsADay,
        @Nullable String deliveryDays,
        @Nullable String longestSwapDays,
        @Nullable String mostWashes)
        implements VersionedForm<WashingForm> {

    WashingForm {
        washDays = washDays == null ? List.of() : List.copyOf(washDays);
    }

    static WashingForm of(SockWashing washing) {
        return new WashingForm(
                washing.version(),
                washing.washDays().stream().sorted().map(DayOfWeek::name).toList(),
                Integer.toString(washing.hoursUntilClean()),
                Integer.toString(washing.socksInLoad()),
                Integer.toString(washing.loadsADay()),
                Integer.toString(washing.deliveryDays()),
                Integer.toString(washing.longestSwapDays()),
                Integer.toString(washing.mostWashes()));
    }

    @Override
    public WashingForm withVersion(int newest) {
        return new WashingForm(
                newest, washDays, hoursUntilClean, socksInLoad, loadsADay, deliveryDays, longestSwapDays, mostWashes);
    }

    Optional<SockWashing> toCommand(FormReader reader) {
        Set<DayOfWeek> days = EnumSet.noneOf(DayOfWeek.class);
        washDays.forEach(day -> reader.choice("washDays", day, DayOfWeek.class).ifPresent(days::add));
        Optional<Integer> hours = reader.requiredWhole("hoursUntilClean", hoursUntilClean, 1, SockWashing.MOST_HOURS);
        Optional<Integer> inLoad = reader.requiredWhole("socksInLoad", socksInLoad, 1, SockWashing.MOST_IN_LOAD);
        Optional<Integer> loads = reader.requiredWhole("loadsADay", loadsADay, 1, SockWashing.MOST_LOADS);
        Optional<Integer> delivery =
                reader.requiredWhole("deliveryDays", deliveryDays, 0, SockWashing.MOST_DELIVERY_DAYS);
        Optional<Integer> longest =
                reader.requiredWhole("longestSwapDays", longestSwapDays, 1, SockWashing.MOST_SWAP_DAYS);
        Optional<Integer> most = reader.requiredWhole("mostWashes", mostWashes, 1, SockWashing.MOST_WASHES);
        if (!reader.accepted()) {
            return Optional.empty();
        }
        return reader.read(() -> new SockWashing(
                days,
                hours.orElseThrow(),
                inLoad.orElseThrow(),
                loads.orElseThrow(),
                delivery.orElseThrow(),
                longest.orElseThrow(),
                most.orElseThrow(),
                version));
    }
}
