package app.tankround.billing;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.List;
import org.joda.money.Money;

/**
 * What was done in a month, by client.
 *
 * @param clients in the order of their names; only those with visits
 * @param total of all clients
 */
public record BillableMonth(YearMonth month, List<ClientSum> clients, Money total) {

    public BillableMonth {
        clients = List.copyOf(clients);
    }

    /** A client's visits of the month, by day, and their sum. */
    public record ClientSum(String code, String name, List<Line> lines, Money total) {

        public ClientSum {
            lines = List.copyOf(lines);
        }
    }

    /**
     * One finished visit to one system.
     *
     * @param doneOn the day it was done, in the business's zone
     * @param price as agreed when it was planned
     */
    public record Line(LocalDate doneOn, String agreementCode, String siteName, String systemName, Money price) {}
}
