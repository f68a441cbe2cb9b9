package app.tankround.visits;

import app.tankround.web.NavigationItem;
import com.github.kagkarlsson.scheduler.task.helper.RecurringTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import com.github.kagkarlsson.scheduler.task.schedule.FixedDelay;
import java.time.Duration;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

@Configuration(proxyBeanMethods = false)
class VisitsConfiguration {

    private static final Duration OFTEN = Duration.ofMinutes(1);

    @Bean
    RecurringTask<Void> watchRunningThings(ObjectProvider<RunningWatch> watch) {
        return Tasks.recurring("watch-running-things", FixedDelay.of(OFTEN))
                .execute((instance, context) -> watch.getObject().look());
    }

    @Bean
    RecurringTask<Void> watchLoneWorking(ObjectProvider<LoneWorking> alone) {
        return Tasks.recurring("watch-lone-working", FixedDelay.of(OFTEN))
                .execute((instance, context) -> alone.getObject().look());
    }

    @Bean
    RecurringTask<Void> tellWhatVisitsUsed(ObjectProvider<UsesOfVisits> uses) {
        return Tasks.recurring("tell-what-visits-used", FixedDelay.of(OFTEN)).execute((instance, context) -> {
            boolean more = true;
            while (more) {
                more = uses.getObject().tell();
            }
        });
    }

    @Bean
    RecurringTask<Void> bookWhatVisitsUsed(ObjectProvider<StockOfVisits> stock) {
        return Tasks.recurring("book-what-visits-used", FixedDelay.of(OFTEN)).execute((instance, context) -> {
            boolean more = true;
            while (more) {
                more = stock.getObject().bookNext();
            }
        });
    }

    @Bean
    NavigationItem aloneNavigation() {
        return NavigationItem.forStaff(55, "alone", "/alone");
    }
}
