package app.tankround.rounds;

import app.tankround.web.NavigationItem;
import com.github.kagkarlsson.scheduler.task.helper.OneTimeTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

@Configuration(proxyBeanMethods = false)
class RoundsConfiguration {

    @Bean
    OneTimeTask<Void> planWeeksTask(ObjectProvider<WeekPlans> plans) {
        return Tasks.oneTime(WeekPlans.TASK)
                .execute((instance, context) -> plans.getObject().search(WeekPlanId.parse(instance.getId())));
    }

    @Bean
    NavigationItem roundsNavigation() {
        return NavigationItem.forStaff(20, "rounds", "/rounds");
    }
}
