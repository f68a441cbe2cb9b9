package app.tankround.rounds;

import app.tankround.accounts.Roster;
import app.tankround.accounts.Skill;
import app.tankround.clients.SiteNeedsDetails;
import app.tankround.clients.SiteNeedsView;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** What a stop asks of the crew, as the planner's skills. */
final class CrewNeeds {

    /** Nobody works there alone. */
    static final String TWO_PEOPLE = "TWO_PEOPLE";
    /** The van may not stand there as long as the work takes, so one of two moves it; common practice, no source. */
    static final String PARKING = "PARKING";
    /** On no day can somebody come; no crew has it. */
    static final String OPEN_DAY = "OPEN_DAY";

    private CrewNeeds() {}

    /** @param minutes from the arrival of the van until it leaves */
    static Set<String> of(@Nullable SiteNeedsView site, int minutes) {
        Set<String> needs = new HashSet<>();
        if (site != null) {
            SiteNeedsDetails details = site.details();
            if (details.twoPeople()) {
                needs.add(TWO_PEOPLE);
            }
            if (details.electrician()) {
                needs.add(Skill.ELECTRICIAN.name());
            }
            if (details.diving()) {
                needs.add(Skill.DIVING.name());
            }
            if (Optional.ofNullable(details.parkingMinutes()).orElse(Integer.MAX_VALUE) < minutes) {
                needs.add(PARKING);
            }
        }
        return needs;
    }

    /** What a van's crew of a day has. */
    static Set<String> of(Roster.Day crew) {
        Set<String> skills = new HashSet<>();
        crew.skills().forEach(skill -> skills.add(skill.name()));
        if (crew.isPair()) {
            skills.add(TWO_PEOPLE);
            skills.add(PARKING);
        }
        return skills;
    }
}
