package app.tankround.accounts;

import app.tankround.persistence.Sha256;
import java.net.Inet6Address;
import java.net.InetAddress;
import java.sql.Timestamp;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Slows down whoever guesses passwords, in the database, so that several instances count together. A guess counts before
 * its password is looked at, so that many at once are no way around. What is refused meanwhile counts for nothing, and the
 * wait for a name never grows beyond a minute: nobody can keep its owner out, who may also sign in by a link. A wait that is
 * longer than any was written down by a clock that went wrong, and holds nobody up.
 */
@Component
class PasswordGuesses {

    private static final Duration REMEMBERED = Duration.ofDays(1);
    private static final int ADDRESS_PREFIX_BYTES = 8;

    /**
     * What may be guessed before one has to wait.
     *
     * @param free guesses without a wait
     * @param first wait, which doubles with each further one
     * @param longest wait
     */
    private record Limit(int free, Duration first, Duration longest) {}

    private static final Limit OF_NAME = new Limit(5, Duration.ofSeconds(5), Duration.ofMinutes(1));
    private static final Limit OF_ADDRESS = new Limit(20, Duration.ofSeconds(30), Duration.ofMinutes(15));

    private final JdbcClient jdbc;
    private final Clock clock;
    private final TransactionTemplate transaction;

    PasswordGuesses(JdbcClient jdbc, Clock clock, PlatformTransactionManager transactions) {
        this.jdbc = jdbc;
        this.clock = clock;
        this.transaction = new TransactionTemplate(transactions);
    }

    /** Counts a guess; answers how long one has to wait instead, where there were too many. */
    Optional<Duration> count(String name, String address) {
        return Optional.ofNullable(transaction.execute(status -> {
            jdbc.sql("delete from password_guess where last_at < :forgotten")
                    .param("forgotten", Timestamp.from(clock.instant().minus(REMEMBERED)))
                    .update();
            Optional<Duration> wait = count(ofAddress(address), OF_ADDRESS).or(() -> count(ofName(name), OF_NAME));
            wait.ifPresent(refused -> status.setRollbackOnly());
            return wait.orElse(null);
        }));
    }

    private Optional<Duration> count(byte[] who, Limit limit) {
        Instant now = clock.instant();
        boolean counted = jdbc.sql("""
                        insert into password_guess as g (who, misses, last_at, wait_until)
                        values (:who, 1, :now, :now)
                        on conflict (who) do update
                        set misses = g.misses + 1,
                            last_at = :now,
                            wait_until = case
                                when g.misses + 1 < :free then cast(:now as timestamptz)
                                else cast(:now as timestamptz) + make_interval(
                                    secs => least(:longest, :first * power(2, least(g.misses + 1 - :free, 30))))
                            end
                        where g.wait_until <= :now
                            or g.wait_until > cast(:now as timestamptz) + make_interval(secs => :longest)
                        returning misses
                        """)
                .param("who", who)
                .param("now", Timestamp.from(now))
                .param("free", limit.free())
                .param("first", (double) limit.first().toSeconds())
                .param("longest", (double) limit.longest().toSeconds())
                .query(Integer.class)
                .optional()
                .isPresent();
        return counted
                ? Optional.empty()
                : jdbc.sql("select wait_until from password_guess where who = :who")
                        .param("who", who)
                        .query(Timestamp.class)
                        .optional()
                        .map(until -> Duration.between(now, until.toInstant()));
    }

    /** Whoever knows the password has not guessed. */
    void known(String name, String address) {
        transaction.executeWithoutResult(status -> {
            jdbc.sql("delete from password_guess where who = :who")
                    .param("who", ofName(name))
                    .update();
            // Others may guess from there too, so that only this one is taken back.
            jdbc.sql("""
                            update password_guess
                            set misses = greatest(1, misses - 1), wait_until = least(wait_until, :now)
                            where who = :who
                            """)
                    .param("who", ofAddress(address))
                    .param("now", Timestamp.from(clock.instant()))
                    .update();
        });
    }

    private static byte[] ofName(String name) {
        return Sha256.of("name " + name.strip().toLowerCase(Locale.ROOT));
    }

    /** An address of version 6 is one of many that its owner has. */
    private static byte[] ofAddress(String address) {
        InetAddress from = InetAddress.ofLiteral(address.split("%", 2)[0]);
        byte[] known = from.getAddress();
        byte[] network = from instanceof Inet6Address ? Arrays.copyOf(known, ADDRESS_PREFIX_BYTES) : known;
        return Sha256.of("address " + HexFormat.of().formatHex(network));
    }
}
