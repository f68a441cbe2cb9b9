package app.tankround.tanks.bench;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.calculator.Calculator;
import app.tankround.chemistry.calculator.Calculators;
import app.tankround.chemistry.calculator.Input;
import app.tankround.chemistry.calculator.Output;
import app.tankround.units.UnitSystem;
import app.tankround.web.NumberText;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;

/** Names and numbers of calculators in the words of a person. */
@Component
class BenchWords {

    /** More digits than any kit or instrument has; the API gives all of them. */
    private static final MathContext SHOWN_DIGITS = new MathContext(6);

    private static final double OUT_OF_SIGHT = 1e9;

    private final MessageSource messages;
    private final BusinessProfile business;

    BenchWords(MessageSource messages, BusinessProfile business) {
        this.messages = messages;
        this.business = business;
    }

    String word(String key, Locale locale, Object... args) {
        return messages.getMessage(key, args, locale);
    }

    boolean has(String key, Locale locale) {
        return !Objects.requireNonNull(messages.getMessage(key, null, "", locale))
                .isEmpty();
    }

    String title(String calculator, Locale locale) {
        return named("bench.calculator.", calculator, calculator.replace('-', ' '), locale);
    }

    String group(Calculators.Group group, Locale locale) {
        return word("bench.group." + group.key(), locale);
    }

    /** What an input or output is, without its unit. */
    String quantity(String quantity, Locale locale) {
        return named("bench.quantity.", quantity, quantity.replace('_', ' '), locale);
    }

    String label(Input input, Locale locale) {
        return quantity(quantityOf(input.name(), input.unit()), locale);
    }

    String label(Output output, Locale locale) {
        return quantity(quantityOf(output.name(), output.unit()), locale);
    }

    /** The names without unit of what a calculator takes. */
    static List<String> takes(Calculator calculator) {
        return calculator.inputs().stream()
                .map(input -> quantityOf(input.name(), input.unit()))
                .toList();
    }

    /** The names without unit of what a calculator gives. */
    static List<String> gives(Calculator calculator) {
        return calculator.outputs().stream()
                .map(output -> quantityOf(output.name(), output.unit()))
                .toList();
    }

    String choice(Input input, String choice, Locale locale) {
        return named("bench.choice." + input.name() + ".", choice, choice.replace('_', ' '), locale);
    }

    ShownUnit unit(String unit) {
        return ShownUnit.of(unit, units());
    }

    boolean inUsUnits() {
        return units() == UnitSystem.US_CUSTOMARY;
    }

    /** The accepted range in the person's unit. */
    String range(Input input, Locale locale) {
        ShownUnit unit = unit(input.unit());
        return limits(
                unit.shown().applyAsDouble(input.low()),
                unit.shown().applyAsDouble(input.high()),
                unit.text(),
                input.from(),
                locale);
    }

    /** Limits in words; one that nobody will ever meet is none. */
    String limits(double low, double high, String unit, String from, Locale locale) {
        boolean above = Math.abs(low) < OUT_OF_SIGHT;
        boolean below = Math.abs(high) < OUT_OF_SIGHT;
        String kind = above ? below ? "between" : "from" : below ? "to" : "any";
        String range = word("bench.range." + kind, locale, number(low, locale), number(high, locale), unit)
                .strip();
        return from.isEmpty() ? range : word("bench.range.of-model", locale, range, from);
    }

    String number(double number, Locale locale) {
        if (!Double.isFinite(number)) {
            return "";
        }
        BigDecimal rounded = new BigDecimal(number).round(SHOWN_DIGITS).stripTrailingZeros();
        BigDecimal plain = new BigDecimal(rounded.signum() == 0 ? "0" : rounded.toPlainString());
        double size = Math.abs(number);
        return size != 0 && (size < 1e-9 || size >= 1e15) ? rounded.toString() : NumberText.plain(plain, locale);
    }

    /** A result with its unit. */
    String result(Object value, String unit, Locale locale) {
        ShownUnit shown = unit(unit);
        String text = switch (value) {
            case Double number -> number(shown.shown().applyAsDouble(number), locale);
            case Boolean yes -> word(yes ? "web.yes" : "web.no", locale);
            case List<?> list ->
                list.stream()
                        .map(each -> each instanceof Double number
                                ? number(shown.shown().applyAsDouble(number), locale)
                                : Objects.toString(each))
                        .collect(Collectors.joining("; "));
            default -> named("bench.answer.", value.toString(), value.toString().replace('_', ' '), locale);
        };
        return shown.text().isEmpty() ? text : text + "\u00a0" + shown.text();
    }

    /** A name such as {@code density_kg_m3} without its unit {@code kg/m3}. */
    static String quantityOf(String name, String unit) {
        StringBuilder suffix = new StringBuilder("_");
        for (char letter : unit.toLowerCase(Locale.ROOT).toCharArray()) {
            if (letter == 'µ' || letter == 'μ') {
                suffix.append('u');
            } else if ((letter >= 'a' && letter <= 'z') || (letter >= '0' && letter <= '9')) {
                suffix.append(letter);
            } else if (letter != '°' && suffix.charAt(suffix.length() - 1) != '_') {
                suffix.append('_');
            }
        }
        boolean named = suffix.length() > 1 && ShownUnit.isSaid(unit) && name.endsWith(suffix.toString());
        return named ? name.substring(0, name.length() - suffix.length()) : name;
    }

    private String named(String prefix, String key, String otherwise, Locale locale) {
        String plain =
                otherwise.isEmpty() ? otherwise : Character.toUpperCase(otherwise.charAt(0)) + otherwise.substring(1);
        return Objects.requireNonNull(messages.getMessage(prefix + key, null, plain, locale));
    }

    private UnitSystem units() {
        return business.unitSystem();
    }
}
