package app.tankround.schedule;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** Says why an instrument is to be checked and what to hold it in. */
@Component("dueCheckWords")
public class DueCheckWords {

    private final MessageSource messages;

    DueCheckWords(MessageSource messages) {
        this.messages = messages;
    }

    /** Why the check is due. */
    public String why(DueCheck check, Locale locale) {
        String code = "schedule.check." + check.why();
        return check.dueOn()
                .map(day -> DateTimeFormatter.ofPattern("d MMMM", locale).format(day))
                .map(day -> text(code, locale, day, check.intervalDays()))
                .orElseGet(() -> text(code, locale));
    }

    /** What to hold it in, which of it is not open yet on {@code day}, or what is missing. */
    public String take(DueCheck check, LocalDate day, Locale locale) {
        String bottles = check.standard().standards().stream()
                .map(bottle -> bottle.lot()
                        .map(lot -> text("schedule.check.take.lot", locale, bottle.code(), bottle.name(), lot))
                        .orElseGet(() -> text("schedule.check.take", locale, bottle.code(), bottle.name())))
                .collect(Collectors.joining(" "));
        String unopened = check.unopenedOn(day).stream()
                .map(bottle -> " " + text("schedule.check.unopened", locale, bottle.code()))
                .collect(Collectors.joining());
        String missing = check.standard()
                .shortage()
                .map(shortage -> text("schedule.check.none." + shortage, locale))
                .orElse("");
        return bottles + unopened + missing;
    }

    private String text(String code, Locale locale, Object... arguments) {
        return messages.getMessage(code, arguments, locale);
    }
}
