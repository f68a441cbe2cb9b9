package app.tankround.tanks.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.web.Choice;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** Units and choices as the pages of this module need them. */
@Component
class Words {

    private final MessageSource messages;
    private final BusinessProfile business;

    Words(MessageSource messages, BusinessProfile business) {
        this.messages = messages;
        this.business = business;
    }

    Figures figures(Locale locale) {
        return new Figures(business.unitSystem(), locale);
    }

    /** All constants of an enum as options, worded by the messages {@code PREFIX.CONSTANT}. */
    <E extends Enum<E>> List<Choice> choices(String prefix, Class<E> type, Locale locale) {
        return Arrays.stream(type.getEnumConstants())
                .map(constant -> new Choice(constant.name(), word(prefix + "." + constant.name(), locale)))
                .toList();
    }

    String word(String key, Locale locale, Object... args) {
        return messages.getMessage(key, args, locale);
    }
}
