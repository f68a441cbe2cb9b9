package app.tankround.tanks;

import app.tankround.web.FieldRefusal;
import java.time.LocalDate;
import java.util.Optional;

/** Whether animals may go into a system now, by what whoever knows its water says. */
public interface StockingHolds {

    /**
     * Asks back where something speaks against it. What went in cannot be refused: with a reason the office is told instead.
     *
     * @param because why they go in all the same; empty before anybody said so
     * @param page where they were put in
     * @throws FieldRefusal at {@code because} if something speaks against it and nobody says why all the same
     */
    void require(WaterSystemView system, int count, LocalDate on, Optional<String> because, String page);
}
