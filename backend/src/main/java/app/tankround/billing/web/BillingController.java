package app.tankround.billing.web;

import app.tankround.billing.BillableMonth;
import app.tankround.billing.Billing;
import app.tankround.schedule.DueVisits;
import app.tankround.web.CsvText;
import app.tankround.web.NavigationItem;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.YearMonth;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;

/** The month's finished visits with their agreed prices, as a page and as CSV. */
@Controller
class BillingController {

    private static final int FIRST_YEAR = 2000;
    private static final int LAST_YEAR = 2099;

    /** A month as a month field sends it, such as {@code 2026-11}. */
    record MonthForm(@Nullable String month) {}

    @Configuration(proxyBeanMethods = false)
    static class Navigation {

        @Bean
        NavigationItem billingNavigation() {
            return NavigationItem.forOffice(60, "billing", "/billing/month");
        }
    }

    private final Billing billing;
    private final DueVisits dueVisits;

    BillingController(Billing billing, DueVisits dueVisits) {
        this.billing = billing;
        this.dueVisits = dueVisits;
    }

    @GetMapping("/billing/month")
    String month(@ModelAttribute("form") MonthForm form, BindingResult result, Model model) {
        YearMonth thisMonth = YearMonth.from(dueVisits.today());
        String asked = form.month();
        YearMonth month = thisMonth;
        if (asked != null) {
            Optional<YearMonth> read = read(asked);
            if (read.isEmpty()) {
                result.rejectValue(
                        "month",
                        "billing.month-refused",
                        new Object[] {asked, FIRST_YEAR + "-01", LAST_YEAR + "-12"},
                        null);
            }
            month = read.orElse(thisMonth);
        } else {
            model.addAttribute("form", new MonthForm(month.toString()));
        }
        model.addAttribute("sums", billing.month(month));
        model.addAttribute("month", month);
        model.addAttribute("previous", month.minusMonths(1));
        model.addAttribute("following", month.plusMonths(1));
        return "billing/month";
    }

    private static Optional<YearMonth> read(String text) {
        try {
            return Optional.of(YearMonth.parse(text))
                    .filter(month -> month.getYear() >= FIRST_YEAR && month.getYear() <= LAST_YEAR);
        } catch (DateTimeException malformed) {
            return Optional.empty();
        }
    }

    /** UTF-8 as RFC 4180: a header, CRLF, one row a visit; prices are plain decimals beside their currency. */
    @GetMapping("/billing/month.csv")
    ResponseEntity<byte[]> csv(@ModelAttribute("form") MonthForm form) {
        Optional<YearMonth> month = Optional.ofNullable(form.month())
                .map(BillingController::read)
                .orElseGet(() -> Optional.of(YearMonth.from(dueVisits.today())));
        if (month.isEmpty()) {
            return ResponseEntity.notFound().build();
        }
        String file = "billing-" + month.get() + ".csv";
        return ResponseEntity.ok()
                .contentType(new MediaType("text", "csv", StandardCharsets.UTF_8))
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment().filename(file).build().toString())
                .body(text(billing.month(month.get())).getBytes(StandardCharsets.UTF_8));
    }

    private static String text(BillableMonth month) {
        StringBuilder text = new StringBuilder(CsvText.line(List.of(
                "client", "client_name", "done_on", "agreement", "site_name", "system_name", "price", "currency")));
        month.clients().forEach(client -> client.lines().forEach(line -> text.append(CsvText.line(row(client, line)))));
        return text.toString();
    }

    private static List<String> row(BillableMonth.ClientSum client, BillableMonth.Line line) {
        return Stream.of(
                        client.code(),
                        client.name(),
                        line.doneOn().toString(),
                        line.agreementCode(),
                        line.siteName(),
                        line.systemName(),
                        line.price().getAmount().toPlainString(),
                        line.price().getCurrencyUnit().getCode())
                .toList();
    }
}
