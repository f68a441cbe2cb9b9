package app.tankround.persistence;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.Function;
import org.springframework.data.convert.ConverterBuilder;
import org.springframework.data.convert.ConverterBuilder.ConverterAware;

/**
 * How one module's ids and values are kept in columns; a bean of this type in the module's configuration is enough.
 *
 * <pre>{@code
 * @Bean
 * JdbcConverters tankConverters() {
 *     return JdbcConverters.none()
 *             .withId(TankId.class, TankId::new, TankId::value)
 *             .with(Volume.class, Double.class, Volume::ofLitres, Volume::litres);
 * }
 * }</pre>
 *
 * <p>Enums, {@code Instant}, {@code LocalDate}, {@code LocalTime}, {@code BigDecimal} and {@code UUID} need none.
 */
public record JdbcConverters(List<ConverterAware> converters) {

    public JdbcConverters {
        converters = List.copyOf(converters);
    }

    /** The empty start of a chain. */
    public static JdbcConverters none() {
        return new JdbcConverters(List.of());
    }

    /** Keeps an id record in a {@code uuid} column. */
    public <T> JdbcConverters withId(Class<T> type, Function<UUID, T> read, Function<T, UUID> write) {
        return with(type, UUID.class, read, write);
    }

    /**
     * Keeps a value in one column.
     *
     * @param type the value's type
     * @param column what the driver reads and writes for the column
     */
    public <T, C> JdbcConverters with(Class<T> type, Class<C> column, Function<C, T> read, Function<T, C> write) {
        var all = new ArrayList<>(converters);
        all.add(ConverterBuilder.reading(column, type, read).andWriting(write));
        return new JdbcConverters(all);
    }
}
