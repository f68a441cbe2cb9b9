package app.tankround.schedule;

import app.tankround.persistence.JdbcConverters;
import app.tankround.web.NavigationItem;
import com.github.kagkarlsson.scheduler.task.helper.RecurringTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import com.github.kagkarlsson.scheduler.task.schedule.Daily;
import com.github.kagkarlsson.scheduler.task.schedule.FixedDelay;
import java.time.Duration;
import java.time.LocalTime;
import java.time.ZoneOffset;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

@Configuration(proxyBeanMethods = false)
class ScheduleConfiguration {

    private static final Duration OFTEN = Duration.ofMinutes(5);

    @Bean
    JdbcConverters scheduleConverters() {
        return JdbcConverters.none()
                .withId(AgreementId.class, AgreementId::new, AgreementId::value)
                .withId(PlannedVisitId.class, PlannedVisitId::new, PlannedVisitId::value)
                .with(RecurrenceRule.class, String.class, RecurrenceRule::new, RecurrenceRule::text)
                .with(Seasons.class, String.class, Seasons::parse, Seasons::toString)
                .with(Pauses.class, String.class, Pauses::parse, Pauses::toString);
    }

    @Bean
    NavigationItem agreementsNavigation() {
        return NavigationItem.forOffice(50, "agreements", "/agreements");
    }

    /** Keeps due visits made ahead also while nobody opens a page. */
    @Bean
    RecurringTask<Void> planDueVisits(DueVisits dueVisits) {
        return Tasks.recurring("plan-due-visits", new Daily(ZoneOffset.UTC, LocalTime.of(1, 0)))
                .execute((instance, context) -> dueVisits.planAhead());
    }

    /** Work beside the agreed visits goes along also while nobody opens a page. */
    @Bean
    RecurringTask<Void> gatherWork(ObjectProvider<WorkProposals> proposals) {
        return Tasks.recurring("gather-work", FixedDelay.of(OFTEN))
                .execute((instance, context) -> proposals.getObject().gather());
    }
}
