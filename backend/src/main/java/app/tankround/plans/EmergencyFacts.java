package app.tankround.plans;

import app.tankround.accounts.BusinessProfile;
import app.tankround.chemistry.AmmoniaOnRise;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.units.MassConcentration;
import app.tankround.units.OutOfRangeException;
import app.tankround.units.Quantity;
import app.tankround.units.Salinity;
import app.tankround.units.Temperature;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Service;

/** The emergencies in words, and what of a system whoever stands in one has to know. */
@Service
public class EmergencyFacts {

    /** Un-ionised ammonia at a pH, mg/L. */
    public record AmmoniaLine(double ph, double milligramsPerLitre, boolean harms) {}

    /** Steps that come before those of every emergency, as messages {@code plans.emergency.people.N}. */
    public static final int FOR_PEOPLE = 4;

    private static final double STEP = 0.5;
    private static final int LINES = 4;

    private final CorrectivePlans plans;
    private final BusinessProfile business;
    private final MessageSource messages;

    EmergencyFacts(CorrectivePlans plans, BusinessProfile business, MessageSource messages) {
        this.plans = plans;
        this.business = business;
        this.messages = messages;
    }

    /** What the ammonia that is there would be worth if pH rose; empty where it is not known. */
    public List<AmmoniaLine> ammonia(WaterSystemId system, Map<Quantity, Double> known) {
        Optional<Double> total = plans.ammonia(system);
        Optional<Double> now = Optional.ofNullable(known.get(Quantity.PH));
        Optional<Double> warmth = Optional.ofNullable(known.get(Quantity.TEMPERATURE));
        if (total.isEmpty() || now.isEmpty() || warmth.isEmpty()) {
            return List.of();
        }
        double ph = now.get();
        List<AmmoniaLine> lines = new ArrayList<>();
        try {
            for (int line = 0; line < LINES; line++) {
                double risen = ph + line * STEP;
                AmmoniaOnRise rise = AmmoniaOnRise.of(
                        MassConcentration.ofMilligramsPerLitre(total.get()),
                        ph,
                        risen,
                        Temperature.ofCelsius(warmth.get()),
                        Salinity.ofPractical(known.getOrDefault(Quantity.SALINITY, 0.0)));
                double after = rise.after().milligramsPerLitre();
                lines.add(new AmmoniaLine(risen, after, after >= AmmoniaOnRise.HARMS_FROM));
            }
        } catch (OutOfRangeException beyond) {
            return List.copyOf(lines);
        }
        return List.copyOf(lines);
    }

    /** All of them in words, with what comes first whichever it is: a tablet takes them along. */
    public Map<String, Object> inWords(Locale locale) {
        Map<String, Object> json = new LinkedHashMap<>();
        for (String word : List.of(
                "people.title",
                "which",
                "unknown",
                "call",
                "fine",
                "harms",
                "ammonia-unknown",
                "ammonia-table",
                "no-system")) {
            json.put(word, text(locale, word));
        }
        json.put("title", messages.getMessage("plans.emergencies", null, locale));
        json.put("ammonia", messages.getMessage("plans.step.ammonia", null, locale));
        json.put("people", steps(locale, "people", FOR_PEOPLE));
        json.put(
                "plans",
                Arrays.stream(Emergency.values())
                        .map(each -> inWords(each, locale))
                        .toList());
        return json;
    }

    private Map<String, Object> inWords(Emergency emergency, Locale locale) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("name", emergency.name());
        for (String part : List.of("title", "sign", "unknown", "call")) {
            json.put(part, text(locale, emergency + "." + part));
        }
        json.put("steps", steps(locale, emergency.name(), emergency.steps()));
        if (emergency.rescueWater()) {
            json.put("rescueWater", text(locale, "rescue-water"));
        }
        return json;
    }

    private List<String> steps(Locale locale, String of, int count) {
        return IntStream.rangeClosed(1, count)
                .mapToObj(step -> text(locale, of + "." + step))
                .toList();
    }

    /** What of one system is told beside: its litres, what was read last, what its ammonia is worth. */
    public Map<String, Object> told(WaterSystemView system, Locale locale) {
        PlanWords words = new PlanWords(business.current().unitSystem(), locale);
        Map<Quantity, Double> known = plans.known(system.id());
        double litres = system.netVolume().litres();
        List<List<String>> facts = new ArrayList<>();
        facts.add(List.of(messages.getMessage("plans.net-volume", null, locale), words.volume(litres)));
        facts.add(List.of(text(locale, "quarter"), words.volume(litres / 4)));
        facts.add(List.of(text(locale, "half"), words.volume(litres / 2)));
        for (Quantity quantity : List.of(Quantity.TEMPERATURE, Quantity.SALINITY, Quantity.PH)) {
            Optional.ofNullable(known.get(quantity))
                    .ifPresent(value -> facts.add(List.of(
                            text(locale, "last", messages.getMessage("quantity.within." + quantity, null, locale)),
                            words.value(quantity, value))));
        }
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("facts", facts);
        json.put(
                "not",
                Arrays.stream(Emergency.values())
                        .filter(each -> !each.concerns(system))
                        .map(Enum::name)
                        .toList());
        List<AmmoniaLine> ammonia = ammonia(system.id(), known);
        if (!ammonia.isEmpty()) {
            plans.ammonia(system.id())
                    .ifPresent(total -> json.put("total", text(locale, "ammonia-total", words.concentration(total))));
        }
        json.put(
                "ammonia",
                ammonia.stream()
                        .map(line -> Map.of(
                                "ph", words.value(Quantity.PH, line.ph()),
                                "value", words.concentration(line.milligramsPerLitre()),
                                "harms", line.harms()))
                        .toList());
        return json;
    }

    private String text(Locale locale, String code, Object... args) {
        return messages.getMessage("plans.emergency." + code, args, locale);
    }
}
