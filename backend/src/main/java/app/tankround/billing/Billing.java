package app.tankround.billing;

import app.tankround.accounts.BusinessProfile;
import app.tankround.billing.BillableMonth.ClientSum;
import app.tankround.billing.BillableMonth.Line;
import app.tankround.clients.ClientService;
import app.tankround.clients.ClientView;
import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.schedule.Agreements;
import app.tankround.schedule.DueVisits;
import app.tankround.schedule.PlannedVisitView;
import app.tankround.tanks.WaterSystems;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.joda.money.CurrencyUnit;
import org.joda.money.Money;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** What a month's work comes to at the agreed prices, without taxes: a list to write invoices from, not an invoice. */
@Service
public class Billing {

    private final DueVisits dueVisits;
    private final Agreements agreements;
    private final WaterSystems systems;
    private final SiteService sites;
    private final ClientService clients;
    private final BusinessProfile business;

    Billing(
            DueVisits dueVisits,
            Agreements agreements,
            WaterSystems systems,
            SiteService sites,
            ClientService clients,
            BusinessProfile business) {
        this.dueVisits = dueVisits;
        this.agreements = agreements;
        this.systems = systems;
        this.sites = sites;
        this.clients = clients;
        this.business = business;
    }

    /** The visits done in that month; those at the business's own depots are nobody's to pay. */
    @Transactional(readOnly = true)
    public BillableMonth month(YearMonth month) {
        CurrencyUnit currency = business.current().currency();
        LocalDate first = month.atDay(1);
        Map<SiteView, List<PlannedVisitView>> bySite = dueVisits.doneBetween(first, first.plusMonths(1)).stream()
                .collect(Collectors.groupingBy(visit -> sites.require(visit.siteId())));
        Map<ClientView, List<Line>> byClient = bySite.entrySet().stream()
                .filter(entry -> entry.getKey().clientId().isPresent())
                .flatMap(entry -> entry.getValue().stream().map(visit -> line(entry.getKey(), visit)))
                .collect(Collectors.groupingBy(
                        OwnedLine::client, Collectors.mapping(OwnedLine::line, Collectors.toList())));
        List<ClientSum> sums = byClient.entrySet().stream()
                .map(entry -> sum(currency, entry.getKey(), entry.getValue()))
                .sorted(Comparator.comparing(ClientSum::name).thenComparing(ClientSum::code))
                .toList();
        return new BillableMonth(
                month, sums, total(currency, sums.stream().map(ClientSum::total).toList()));
    }

    private record OwnedLine(ClientView client, Line line) {}

    private OwnedLine line(SiteView site, PlannedVisitView visit) {
        return new OwnedLine(
                clients.require(site.clientId().orElseThrow()),
                new Line(
                        visit.doneOn().orElseThrow(),
                        agreements.require(visit.agreementId()).code(),
                        site.name(),
                        systems.require(visit.waterSystemId()).name(),
                        visit.price()));
    }

    private static ClientSum sum(CurrencyUnit currency, ClientView client, List<Line> lines) {
        List<Line> byDay = lines.stream()
                .sorted(Comparator.comparing(Line::doneOn)
                        .thenComparing(Line::siteName)
                        .thenComparing(Line::systemName)
                        .thenComparing(Line::agreementCode))
                .toList();
        return new ClientSum(
                client.code(),
                client.name(),
                byDay,
                total(currency, byDay.stream().map(Line::price).toList()));
    }

    private static Money total(CurrencyUnit currency, List<Money> parts) {
        return parts.stream().reduce(Money.zero(currency), Money::plus);
    }
}
