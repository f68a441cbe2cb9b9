package app.tankround.web;

import java.math.BigDecimal;
import java.text.ParseException;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Locale;
import org.springframework.format.Formatter;
import org.springframework.web.bind.WebDataBinder;

/** How typed text becomes numbers, dates and times, in forms and addresses alike. */
final class TypedText {

    /** Nothing of an aquarium business lies outside these years; a slip of the keyboard does. */
    private static final LocalDate EARLIEST = LocalDate.of(1970, 1, 1);

    private static final LocalDate LATEST = LocalDate.of(2099, 12, 31);

    private TypedText() {}

    /**
     * Makes the binder read these types by our rules alone. They are given to the binder itself and not to the conversion
     * service, behind which Spring would try an editor of its own that takes {@code 1e9}.
     */
    static void readBy(WebDataBinder binder) {
        binder.addCustomFormatter(new NumberFormatter(), BigDecimal.class);
        binder.addCustomFormatter(new WholeNumberFormatter(), Integer.class, int.class);
        binder.addCustomFormatter(new DateFormatter(), LocalDate.class);
        binder.addCustomFormatter(new TimeFormatter(), LocalTime.class);
    }

    static final class NumberFormatter implements Formatter<BigDecimal> {

        @Override
        public BigDecimal parse(String text, Locale locale) {
            return NumberInput.parse(text, locale);
        }

        @Override
        public String print(BigDecimal number, Locale locale) {
            return NumberText.plain(number, locale);
        }
    }

    static final class WholeNumberFormatter implements Formatter<Integer> {

        @Override
        public Integer parse(String text, Locale locale) {
            try {
                return NumberInput.parse(text, locale).intValueExact();
            } catch (ArithmeticException fraction) {
                throw new NumberRefusal("number-not-whole", text.strip());
            }
        }

        @Override
        public String print(Integer number, Locale locale) {
            return number.toString();
        }
    }

    static final class DateFormatter implements Formatter<LocalDate> {

        @Override
        public LocalDate parse(String text, Locale locale) throws ParseException {
            LocalDate date;
            try {
                date = LocalDate.parse(text.strip());
            } catch (DateTimeException malformed) {
                throw new NumberRefusal("date-malformed", text.strip());
            }
            if (date.isBefore(EARLIEST) || date.isAfter(LATEST)) {
                throw new NumberRefusal("date-implausible", text.strip());
            }
            return date;
        }

        /** ISO 8601, the form that a date field of a page takes and gives. */
        @Override
        public String print(LocalDate date, Locale locale) {
            return date.toString();
        }
    }

    static final class TimeFormatter implements Formatter<LocalTime> {

        @Override
        public LocalTime parse(String text, Locale locale) {
            try {
                return LocalTime.parse(text.strip());
            } catch (DateTimeException malformed) {
                throw new NumberRefusal("time-malformed", text.strip());
            }
        }

        @Override
        public String print(LocalTime time, Locale locale) {
            return time.toString();
        }
    }
}
