package app.tankround.plans.web;

import app.tankround.plans.DoseRuleView;
import app.tankround.plans.PlanWords;
import app.tankround.web.VersionedForm;
import org.jspecify.annotations.Nullable;

/** What is known about giving a product, as typed; the most in a day is for 100 L or 10 US gallons, as the business reads. */
record DoseRuleForm(
        int version,
        @Nullable String product,
        @Nullable String kind,
        @Nullable String leastHours,
        @Nullable String mostPerDay,
        @Nullable String unit,
        @Nullable String why)
        implements VersionedForm<DoseRuleForm> {

    static DoseRuleForm of(DoseRuleView rule, PlanWords words) {
        return new DoseRuleForm(
                rule.version(),
                rule.product(),
                rule.kind().name(),
                rule.leastHours().map(String::valueOf).orElse(null),
                rule.mostPerDay().map(words::shownDose).map(words::field).orElse(null),
                rule.unit(),
                rule.why());
    }

    @Override
    public DoseRuleForm withVersion(int newest) {
        return new DoseRuleForm(newest, product, kind, leastHours, mostPerDay, unit, why);
    }
}
