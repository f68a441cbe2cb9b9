package app.tankround.schedule;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.PersonId;
import app.tankround.units.SockSize;
import java.sql.Types;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Tasks that are due oftener than the visits come, and that somebody decided to leave so. */
@Service
public class KeptGaps {

    /** Who left it so, and when; nobody where no person was signed in. */
    public record Kept(Optional<PersonId> by, Instant at) {}

    private final JdbcClient jdbc;
    private final CurrentPerson currentPerson;
    private final ChangeLog changes;
    private final Clock clock;

    KeptGaps(JdbcClient jdbc, CurrentPerson currentPerson, ChangeLog changes, Clock clock) {
        this.jdbc = jdbc;
        this.currentPerson = currentPerson;
        this.changes = changes;
        this.clock = clock;
    }

    /** Leaves them so, from now on and until there are others. The same said again changes nothing. */
    @Transactional
    public void keep(AgreementId agreement, List<IntervalGap> gaps) {
        if (gaps.isEmpty() || of(agreement, gaps).isPresent()) {
            return;
        }
        jdbc.sql("""
                        insert into interval_gap_kept (agreement_id, gaps, kept_by, kept_at)
                        values (:agreement, :gaps, :by, :at)
                        on conflict (agreement_id) do update
                        set gaps = excluded.gaps, kept_by = excluded.kept_by, kept_at = excluded.kept_at
                        """)
                .param("agreement", agreement.value())
                .param("gaps", text(gaps))
                .param("by", currentPerson.id().map(PersonId::value).orElse(null), Types.OTHER)
                .param("at", clock.instant().atOffset(ZoneOffset.UTC))
                .update();
        changes.record("agreement", agreement, "gaps-kept", Map.of("gaps", text(gaps)));
    }

    /** Who left exactly these so; empty where nobody did. */
    @Transactional(readOnly = true)
    public Optional<Kept> of(AgreementId agreement, List<IntervalGap> gaps) {
        if (gaps.isEmpty()) {
            return Optional.empty();
        }
        return jdbc.sql(
                        "select kept_by, kept_at from interval_gap_kept where agreement_id = :agreement and gaps = :gaps")
                .param("agreement", agreement.value())
                .param("gaps", text(gaps))
                .query((row, number) -> new Kept(
                        Optional.ofNullable(row.getObject("kept_by", UUID.class))
                                .map(PersonId::of),
                        row.getObject("kept_at", OffsetDateTime.class).toInstant()))
                .optional();
    }

    private static String text(List<IntervalGap> gaps) {
        return gaps.stream()
                .map(gap -> gap.task().kind() + " "
                        + gap.task().amount().map(Object::toString).orElse("")
                        + gap.task().unit().orElse("") + " " + gap.task().item().orElse("")
                        + gap.task().sockSize().map(SockSize::code).orElse("") + " "
                        + gap.task().intervalDays().orElseThrow() + "/" + gap.everyDays())
                .sorted()
                .collect(Collectors.joining("|"));
    }
}
