package app.tankround.chemistry.calculator;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.json.JsonReadFeature;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.json.JsonMapper;

/** Reads and writes the JSON of calculations; the one writer for HTTP and command line, so that both say the same. */
public final class AnswerJson {

    private static final TypeReference<LinkedHashMap<String, @Nullable Object>> OBJECT = new TypeReference<>() {};

    /** NaN and infinities are read, so that they can be refused at their input. */
    private static final JsonMapper JSON = JsonMapper.builder()
            .enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .build();

    private AnswerJson() {}

    /** Calls a calculator with a JSON object of its inputs. */
    public static Answer answer(String calculatorName, byte[] inputs) {
        @Nullable Map<String, @Nullable Object> given;
        try {
            given = JSON.readValue(inputs, OBJECT);
        } catch (JacksonException malformed) {
            given = null;
        }
        if (given == null && Calculators.named(calculatorName).isPresent()) {
            return Answer.notTaken(List.of(new InputErrors.InputError(
                    "", InputErrors.Code.MALFORMED, "must be one JSON object, each input once")));
        }
        return Answer.to(calculatorName, given == null ? Map.of() : given);
    }

    /** One line of JSON; numbers with all digits of a double. */
    public static String write(Object body) {
        return JSON.writeValueAsString(body);
    }
}
