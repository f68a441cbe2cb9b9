package app.tankround.web;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.text.ParseException;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.context.support.ResourceBundleMessageSource;
import org.springframework.core.convert.TypeDescriptor;
import org.springframework.core.convert.converter.ConditionalGenericConverter;
import org.springframework.core.io.support.PathMatchingResourcePatternResolver;
import org.springframework.format.Formatter;
import org.springframework.format.FormatterRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/** How typed text becomes numbers, dates and ids, and where words come from. */
@Configuration(proxyBeanMethods = false)
class WebConfiguration implements WebMvcConfigurer {

    /** Nothing of an aquarium business lies outside these years; a slip of the keyboard does. */
    private static final LocalDate EARLIEST = LocalDate.of(1970, 1, 1);

    private static final LocalDate LATEST = LocalDate.of(2099, 12, 31);

    @Override
    public void addFormatters(FormatterRegistry registry) {
        registry.addFormatterForFieldType(BigDecimal.class, new NumberFormatter());
        registry.addFormatterForFieldType(Integer.class, new WholeNumberFormatter());
        registry.addFormatterForFieldType(LocalDate.class, new DateFormatter());
        registry.addFormatterForFieldType(LocalTime.class, new TimeFormatter());
        registry.addConverter(new IdConverter());
    }

    /** Every module's {@code messages/MODULE.properties}, found by name so that a new module needs no line here. */
    @Bean
    MessageSource messageSource() throws IOException {
        var found = new PathMatchingResourcePatternResolver().getResources("classpath*:messages/*.properties");
        Set<String> names = Arrays.stream(found)
                .map(resource -> Objects.requireNonNull(resource.getFilename()))
                .map(file -> file.replaceFirst("(_[a-z]{2}(_[A-Z]{2})?)?\\.properties$", ""))
                .collect(Collectors.toCollection(TreeSet::new));
        var source = new ResourceBundleMessageSource();
        names.forEach(name -> source.addBasenames("messages/" + name));
        source.setDefaultEncoding(StandardCharsets.UTF_8.name());
        source.setFallbackToSystemLocale(false);
        source.setDefaultLocale(Locale.ENGLISH);
        return source;
    }

    private static final class NumberFormatter implements Formatter<BigDecimal> {

        @Override
        public BigDecimal parse(String text, Locale locale) {
            return NumberInput.parse(text, locale);
        }

        @Override
        public String print(BigDecimal number, Locale locale) {
            return NumberText.plain(number, locale);
        }
    }

    private static final class WholeNumberFormatter implements Formatter<Integer> {

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

    private static final class DateFormatter implements Formatter<LocalDate> {

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

    private static final class TimeFormatter implements Formatter<LocalTime> {

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

    /** Reads any id, that is any record of one UUID, from an address or a form. */
    private static final class IdConverter implements ConditionalGenericConverter {

        @Override
        public @Nullable Set<ConvertiblePair> getConvertibleTypes() {
            return null;
        }

        @Override
        public boolean matches(TypeDescriptor source, TypeDescriptor target) {
            var components = target.getType().getRecordComponents();
            return source.getType() == String.class
                    && components != null
                    && components.length == 1
                    && components[0].getType() == UUID.class;
        }

        @Override
        public @Nullable Object convert(@Nullable Object text, TypeDescriptor source, TypeDescriptor target) {
            if (text == null || text.toString().isBlank()) {
                return null;
            }
            try {
                return target.getType().getConstructor(UUID.class).newInstance(UUID.fromString(text.toString()));
            } catch (ReflectiveOperationException notAnId) {
                throw new IllegalArgumentException(notAnId);
            }
        }
    }
}
