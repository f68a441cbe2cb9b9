package app.tankround.accounts.web;

import app.tankround.accounts.CsvTable;
import app.tankround.accounts.exchange.BusinessExchange;
import app.tankround.accounts.exchange.ImportOutcome;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MultipartFile;

/** The CSV exchange for people. */
@Controller
class ImportsController {

    private final BusinessExchange exchange;
    private final MessageSource messages;
    private final List<CsvTable> tables;

    ImportsController(BusinessExchange exchange, MessageSource messages, List<CsvTable> tables) {
        this.exchange = exchange;
        this.messages = messages;
        this.tables =
                tables.stream().sorted(Comparator.comparingInt(CsvTable::order)).toList();
    }

    @ModelAttribute("tables")
    List<CsvTable> tables() {
        return tables;
    }

    @GetMapping("/imports")
    String imports() {
        return "accounts/imports";
    }

    @PostMapping("/imports")
    String importFile(
            @RequestParam("file") MultipartFile file,
            @RequestParam(name = "dryRun", defaultValue = "false") boolean dryRun,
            Model model,
            Locale locale,
            HttpServletResponse response)
            throws IOException {
        String name = Objects.requireNonNullElse(file.getOriginalFilename(), "");
        if (file.isEmpty()) {
            response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
            model.addAttribute("noFile", true);
            return "accounts/imports";
        }
        ImportOutcome outcome = exchange.importFile(name, file.getBytes(), dryRun);
        if (!outcome.errors().isEmpty()) {
            response.setStatus(HttpStatus.UNPROCESSABLE_CONTENT.value());
        }
        model.addAttribute("outcome", outcome);
        model.addAttribute("dryRun", dryRun);
        model.addAttribute(
                "errors",
                outcome.errors().stream()
                        .map(problem -> ExchangeController.worded(messages, problem, locale))
                        .toList());
        return "accounts/imports";
    }
}
