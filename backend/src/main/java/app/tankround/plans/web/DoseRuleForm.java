package app.tankround.plans.web;

import app.tankround.plans.DoseRuleView;
import app.tankround.plans.PlanWords;
import app.tankround.web.VersionedForm;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** What is known about giving a product, as typed; the most in a day is for 100 L or 10 US gallons, as the business reads. */
record DoseRuleForm(
        @Nullable String id,
        int version,
        @Nullable String product,
        @Nullable String kind,
        @Nullable String leastHours,
        @Nullable String mostPerDay,
        @Nullable String unit,
        @Nullable String why)
        implements VersionedForm<DoseRuleForm> {

    /** @param id that the rule will have, so that sending it twice makes one */
    static DoseRuleForm blank(UUID id, @Nullable String product) {
        return new DoseRuleForm(id.toString(), 0, product, null, null, null, "mL", null);
    }

    static DoseRuleForm of(DoseRuleView rule, PlanWords words) {
        return new DoseRuleForm(
                rule.id().toString(),
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
        return new DoseRuleForm(id, newest, product, kind, leastHours, mostPerDay, unit, why);
    }
}
