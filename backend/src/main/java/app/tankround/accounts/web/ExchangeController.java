package app.tankround.accounts.web;

import app.tankround.accounts.exchange.BusinessExchange;
import app.tankround.accounts.exchange.ImportOutcome;
import app.tankround.accounts.exchange.ImportProblem;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.springframework.context.MessageSource;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import org.springframework.web.multipart.MultipartFile;

/** The CSV exchange for programs. */
@RestController
class ExchangeController {

    record ErrorJson(String file, int line, String column, String code, String message) {}

    record OutcomeJson(int created, int changed, int unchanged, List<ErrorJson> errors) {}

    private final BusinessExchange exchange;
    private final MessageSource messages;

    ExchangeController(BusinessExchange exchange, MessageSource messages) {
        this.exchange = exchange;
        this.messages = messages;
    }

    @GetMapping("/api/exports/business.zip")
    ResponseEntity<byte[]> export() {
        return ResponseEntity.ok()
                .contentType(new MediaType("application", "zip"))
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment()
                                .filename("business.zip")
                                .build()
                                .toString())
                .body(exchange.export());
    }

    @PostMapping("/api/imports")
    ResponseEntity<OutcomeJson> importFile(
            @RequestParam("file") MultipartFile file,
            @RequestParam(name = "dryRun", defaultValue = "false") boolean dryRun,
            Locale locale)
            throws IOException {
        String name = Objects.requireNonNullElse(file.getOriginalFilename(), "");
        ImportOutcome outcome = exchange.importFile(name, file.getBytes(), dryRun);
        HttpStatus status = outcome.errors().isEmpty() ? HttpStatus.OK : HttpStatus.UNPROCESSABLE_CONTENT;
        return ResponseEntity.status(status)
                .body(new OutcomeJson(
                        outcome.created(),
                        outcome.changed(),
                        outcome.unchanged(),
                        outcome.errors().stream()
                                .map(problem -> worded(messages, problem, locale))
                                .toList()));
    }

    static ErrorJson worded(MessageSource messages, ImportProblem problem, Locale locale) {
        String words = messages.getMessage(problem.code(), problem.args().toArray(), problem.code(), locale);
        return new ErrorJson(problem.file(), problem.line(), problem.column(), problem.code(), String.valueOf(words));
    }
}
