package app.tankround.documents;

import com.github.kagkarlsson.scheduler.task.FailureHandler;
import com.github.kagkarlsson.scheduler.task.helper.OneTimeTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import java.time.Duration;
import java.util.UUID;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

@Configuration(proxyBeanMethods = false)
class DocumentsConfiguration {

    private static final Duration FIRST_WAIT = Duration.ofMinutes(1);
    private static final double LONGER_EACH_TIME = 2;
    private static final int MOST_TRIES = 12;

    /** A mail server that does not answer is asked again, for about three days. */
    @Bean
    OneTimeTask<Void> sendMailTask(ObjectProvider<Mailer> mailer) {
        return Tasks.oneTime(Mailer.TASK)
                .onFailure(new FailureHandler.MaxRetriesFailureHandler<>(
                        MOST_TRIES,
                        new FailureHandler.ExponentialBackoffFailureHandler<>(FIRST_WAIT, LONGER_EACH_TIME)))
                .execute((instance, context) -> mailer.getObject().send(UUID.fromString(instance.getId())));
    }
}
