package app.tankround.visits.apart;

import app.tankround.tanks.QuarantineService.Period;
import app.tankround.web.VersionedForm;
import org.jspecify.annotations.Nullable;

/** Days of quarantine for a kind of animals, as typed. */
record PeriodForm(
        String id,
        int version,
        @Nullable String kind,
        @Nullable String days,
        @Nullable String why) implements VersionedForm<PeriodForm> {

    static PeriodForm of(Period period) {
        return new PeriodForm(
                period.id().toString(), period.version(), period.kind(), Integer.toString(period.days()), period.why());
    }

    @Override
    public PeriodForm withVersion(int newest) {
        return new PeriodForm(id, newest, kind, days, why);
    }
}
