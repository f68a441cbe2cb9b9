package app.tankround.loads;

import app.tankround.accounts.BusinessProfile;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitId;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.WaterSystems;
import java.util.Locale;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What can be done about a round that does not fit, in words and in the units of the business. */
@Service
public class RemedyPages {

    private final Remedies remedies;
    private final RoundService rounds;
    private final DueVisits dueVisits;
    private final WaterSystems systems;
    private final BusinessProfile business;
    private final MessageSource messages;

    RemedyPages(
            Remedies remedies,
            RoundService rounds,
            DueVisits dueVisits,
            WaterSystems systems,
            BusinessProfile business,
            MessageSource messages) {
        this.remedies = remedies;
        this.rounds = rounds;
        this.dueVisits = dueVisits;
        this.systems = systems;
        this.business = business;
        this.messages = messages;
    }

    /** @throws app.tankround.web.NotFound if there is no such round */
    @Transactional(readOnly = true)
    public RemedyPage of(RoundId id, Locale locale) {
        LoadWords words = LoadWords.of(business.current(), messages, locale);
        return RemedyPage.of(rounds.require(id), remedies.of(id), this::system, words);
    }

    private String system(PlannedVisitId visit) {
        PlannedVisitView due = dueVisits.require(visit);
        return systems.require(due.waterSystemId()).name();
    }
}
