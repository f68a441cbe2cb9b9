package app.tankround.loads;

import app.tankround.accounts.PersonId;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.web.Entry;
import app.tankround.web.EntryAnswer;
import app.tankround.web.EntryHandler;
import app.tankround.web.FieldRefusal;
import app.tankround.web.TextInput;
import java.math.BigDecimal;
import java.time.Clock;
import java.util.Map;
import java.util.Optional;
import org.springframework.stereotype.Component;
import tools.jackson.databind.JsonNode;

/**
 * Ticks as devices send them: kind {@code load.tick}, the round as subject, and a body such as
 * {@code {"line": "sock:100", "amount": "3", "ticked": true, "version": 2}} with the version of the round whose sheet
 * was on the screen. Where some of it is not there, it has {@code "missing": "1"} and may have {@code "instead"} as well. A tick counts from when it was made, so that one made without a signal does not overrule what somebody
 * said meanwhile.
 */
@Component
class TickEntries implements EntryHandler {

    private static final int LONGEST_KEY = 300;

    private final RoundService rounds;
    private final LoadTicks ticks;
    private final Clock clock;

    TickEntries(RoundService rounds, LoadTicks ticks, Clock clock) {
        this.rounds = rounds;
        this.ticks = ticks;
        this.clock = clock;
    }

    @Override
    public boolean handles(String kind) {
        return kind.equals("load.tick");
    }

    @Override
    public EntryAnswer apply(Entry entry) {
        Optional<RoundId> round =
                entry.subject().map(RoundId::of).filter(id -> rounds.find(id).isPresent());
        if (round.isEmpty()) {
            throw new FieldRefusal("subject", "loads.round-unknown");
        }
        JsonNode body = entry.body();
        String line = body.path("line").asString("");
        Optional<BigDecimal> amount = amount(body.path("amount"));
        Optional<BigDecimal> missing =
                body.path("missing").isMissingNode() ? Optional.of(BigDecimal.ZERO) : amount(body.path("missing"));
        JsonNode ticked = body.path("ticked");
        JsonNode version = body.path("version");
        refuseUnless(!line.isEmpty() && line.length() <= LONGEST_KEY, "line");
        refuseUnless(amount.isPresent(), "amount");
        refuseUnless(missing.isPresent(), "missing");
        refuseUnless(ticked.isBoolean(), "ticked");
        refuseUnless(version.isInt(), "version");
        LoadTicks.Outcome outcome = ticks.record(new NewTick(
                entry.id(),
                round.get(),
                version.asInt(),
                line,
                amount.orElseThrow(),
                ticked.asBoolean(),
                missing.orElseThrow(),
                Optional.ofNullable(
                        TextInput.optional("instead", body.path("instead").asString(""), LoadTicks.LONGEST_INSTEAD)),
                PersonId.of(entry.author()),
                entry.happened(clock.instant())));
        return switch (outcome) {
            case KEPT -> EntryAnswer.applied();
            case SHEET_CHANGED -> EntryAnswer.conflict("loads.sheet-changed", Map.of("line", line));
            case UNKNOWN_LINE -> throw new FieldRefusal("line", "loads.line-unknown", line);
        };
    }

    private static void refuseUnless(boolean readable, String field) {
        if (!readable) {
            throw new FieldRefusal(field, "loads.tick-malformed");
        }
    }

    /** Written as text, so that no browser rounds it. */
    private static Optional<BigDecimal> amount(JsonNode node) {
        String text = node.asString("");
        if (!text.matches("\\d{1,9}(\\.\\d{1,6})?")) {
            return Optional.empty();
        }
        return Optional.of(new BigDecimal(text));
    }
}
