package app.tankround.web;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
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
import org.springframework.format.FormatterRegistry;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;

/** How text becomes an id, and where words come from. */
@Configuration(proxyBeanMethods = false)
class WebConfiguration implements WebMvcConfigurer {

    @Override
    public void addFormatters(FormatterRegistry registry) {
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
