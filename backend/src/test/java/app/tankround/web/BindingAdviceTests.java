package app.tankround.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatNoException;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.context.i18n.LocaleContextHolder;
import org.springframework.core.ResolvableType;
import org.springframework.format.support.DefaultFormattingConversionService;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.validation.DataBinder;
import org.springframework.validation.FieldError;
import org.springframework.web.bind.WebDataBinder;
import org.springframework.web.context.request.ServletWebRequest;

class BindingAdviceTests {

    record Inner(@Nullable BigDecimal amount) {}

    record Form(
            @Nullable BigDecimal amount,
            @Nullable Integer count,
            @Nullable LocalDate day,
            @Nullable LocalTime time,
            @Nullable Inner inner) {}

    @BeforeEach
    void speakIrishEnglish() {
        LocaleContextHolder.setLocale(Locale.forLanguageTag("en-IE"));
    }

    @AfterEach
    void forget() {
        LocaleContextHolder.resetLocaleContext();
    }

    private static WebDataBinder bound(String field, String typed) {
        var binder = new WebDataBinder(null, "form");
        binder.setTargetType(ResolvableType.forClass(Form.class));
        binder.setConversionService(new DefaultFormattingConversionService());
        new BindingAdvice().prepare(binder);
        Map<String, String> sent = Map.of(field, typed);
        binder.construct(new DataBinder.ValueResolver() {
            @Override
            public @Nullable Object resolveValue(String name, Class<?> type) {
                return sent.get(name);
            }

            @Override
            public Set<String> getNames() {
                return sent.keySet();
            }
        });
        return binder;
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"points[99999].value", "points[-1].value", "points[0].found[256]", "points[x].value", "id[x]"})
    void refusesAPlaceInAListThatNoFormHas(String parameter) {
        assertThatExceptionOfType(TamperedRequest.class).isThrownBy(() -> sent(parameter));
    }

    @ParameterizedTest
    @ValueSource(strings = {"points[255].value", "points[0].found[7]", "amount"})
    void takesThePlacesThatFormsHave(String parameter) {
        assertThatNoException().isThrownBy(() -> sent(parameter));
    }

    private static void sent(String parameter) {
        var request = new MockHttpServletRequest();
        request.addParameter(parameter, "1");
        new BindingAdvice().refuseStrangePlaces(new ServletWebRequest(request));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "amount       | 1e9        | web.number-malformed",
                "inner.amount | 1e9        | web.number-malformed",
                "amount       | NaN        | web.number-malformed",
                "amount       | 1,025      | web.number-ambiguous",
                "inner.amount | 1,025      | web.number-ambiguous",
                "amount       | 8,2        | web.number-separator",
                "count        | 2.5        | web.number-not-whole",
                "day          | 20225-01-01 | web.date-malformed",
                "day          | 2225-01-01 | web.date-implausible",
                "time         | 25:00      | web.time-malformed",
            })
    void putsTheReasonAtTheFieldWithWhatWasTyped(String field, String typed, String code) {
        FieldError error = Objects.requireNonNull(
                bound(field, typed).getBindingResult().getFieldError(field), () -> "no refusal of " + typed);

        assertThat(error.getCodes()).contains(code);
        assertThat(error.getRejectedValue()).isEqualTo(typed);
    }

    @ParameterizedTest
    @CsvSource({"amount, 8.20", "inner.amount, 8.20", "count, 12", "day, 2026-03-02", "time, 07:30"})
    void takesWhatIsMeantOneWay(String field, String typed) {
        assertThat(bound(field, typed).getBindingResult().getAllErrors()).isEmpty();
    }
}
