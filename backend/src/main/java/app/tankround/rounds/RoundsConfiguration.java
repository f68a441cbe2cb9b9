package app.tankround.rounds;

import app.tankround.web.NavigationItem;
import com.github.kagkarlsson.scheduler.task.helper.OneTimeTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.web.servlet.config.annotation.ResourceHandlerRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

@Configuration(proxyBeanMethods = false)
class RoundsConfiguration implements WebMvcConfigurer {

    /** Maps, by Volodymyr Agafonkin and others, BSD 2-clause licence. */
    private static final String LEAFLET = "META-INF/resources/webjars/leaflet/1.9.4/dist/";

    @Bean
    OneTimeTask<Void> planWeeksTask(ObjectProvider<WeekPlans> plans) {
        return Tasks.oneTime(WeekPlans.TASK)
                .execute((instance, context) -> plans.getObject().search(WeekPlanId.parse(instance.getId())));
    }

    @Bean
    NavigationItem roundsNavigation() {
        return NavigationItem.forStaff(20, "rounds", "/rounds");
    }

    @Override
    public void addResourceHandlers(ResourceHandlerRegistry registry) {
        registry.addResourceHandler("/js/lib/leaflet/leaflet.*").addResourceLocations("classpath:/" + LEAFLET);
    }
}
