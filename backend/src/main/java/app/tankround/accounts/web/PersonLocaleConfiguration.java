package app.tankround.accounts.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonView;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.web.servlet.LocaleResolver;

/** Numbers and dates follow the person who is signed in, and the business's habit where nobody is. */
@Configuration(proxyBeanMethods = false)
class PersonLocaleConfiguration {

    private static final String REMEMBERED = PersonLocaleConfiguration.class.getName() + ".locale";

    @Bean
    LocaleResolver localeResolver(CurrentPerson currentPerson, BusinessProfile profile) {
        return new LocaleResolver() {

            @Override
            public Locale resolveLocale(HttpServletRequest request) {
                if (request.getAttribute(REMEMBERED) instanceof Locale remembered) {
                    return remembered;
                }
                Locale locale = currentPerson
                        .find()
                        .map(PersonView::locale)
                        .or(() -> profile.find().map(BusinessSettings::locale))
                        .orElse(Locale.UK);
                request.setAttribute(REMEMBERED, locale);
                return locale;
            }

            @Override
            public void setLocale(
                    HttpServletRequest request, @Nullable HttpServletResponse response, @Nullable Locale locale) {
                throw new UnsupportedOperationException("the locale belongs to the person's account");
            }
        };
    }
}
