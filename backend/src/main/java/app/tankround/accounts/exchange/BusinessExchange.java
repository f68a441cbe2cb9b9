package app.tankround.accounts.exchange;

import app.tankround.accounts.ChangeLog;
import app.tankround.accounts.CsvRow;
import app.tankround.accounts.CsvTable;
import app.tankround.web.CsvText;
import app.tankround.web.FieldRefusal;
import app.tankround.web.StaleVersion;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;

/** The whole business as CSV files, out and in. */
@Service
public class BusinessExchange {

    /** More than this inside a zip is no business of ours but a bomb. */
    private static final int LARGEST_UNPACKED = 200 * 1024 * 1024;

    private static final int MOST_ERRORS = 200;

    private static final int END_OF_DIRECTORY_BYTES = 22;

    /** Any number that is the same on every instance: imports queue behind it. */
    private static final long ONE_AT_A_TIME = 7_203_114_551L;

    private static final Logger LOG = LoggerFactory.getLogger(BusinessExchange.class);

    private final List<CsvTable> tables;
    private final JdbcClient jdbc;
    private final ChangeLog changeLog;
    private final TransactionTemplate whole;
    private final TransactionTemplate row;
    private final TransactionTemplate snapshot;

    BusinessExchange(
            List<CsvTable> tables, JdbcClient jdbc, ChangeLog changeLog, PlatformTransactionManager transactions) {
        this.tables =
                tables.stream().sorted(Comparator.comparingInt(CsvTable::order)).toList();
        this.jdbc = jdbc;
        this.changeLog = changeLog;
        this.whole = new TransactionTemplate(transactions);
        this.row = new TransactionTemplate(transactions);
        this.row.setPropagationBehavior(TransactionDefinition.PROPAGATION_NESTED);
        this.snapshot = new TransactionTemplate(transactions);
        this.snapshot.setReadOnly(true);
        this.snapshot.setIsolationLevel(TransactionDefinition.ISOLATION_REPEATABLE_READ);
    }

    /** All files in one zip; the same data give the same bytes. */
    public byte[] export() {
        return snapshot.execute(status -> {
            var bytes = new ByteArrayOutputStream();
            try (var zip = new ZipOutputStream(bytes)) {
                for (CsvTable table : tables) {
                    var entry = new ZipEntry(table.name() + ".csv");
                    entry.setTime(0);
                    zip.putNextEntry(entry);
                    zip.write(CsvText.line(table.columns()).getBytes(StandardCharsets.UTF_8));
                    table.rows().forEach(fields -> write(zip, fields));
                    zip.closeEntry();
                }
            } catch (IOException impossible) {
                throw new UncheckedIOException(impossible);
            }
            return bytes.toByteArray();
        });
    }

    /**
     * Imports a zip of CSV files, or one CSV file named after its table: all of it or, with any error, nothing.
     *
     * @param dryRun says what would happen and changes nothing
     */
    public ImportOutcome importFile(String fileName, byte[] bytes, boolean dryRun) {
        var problems = new ArrayList<ImportProblem>();
        Map<String, byte[]> files = unpack(fileName, bytes, problems);
        var counts = new int[3];
        return whole.execute(status -> {
            jdbc.sql("select pg_advisory_xact_lock(:key)")
                    .param("key", ONE_AT_A_TIME)
                    .query((result, number) -> true)
                    .single();
            for (CsvTable table : tables) {
                byte[] content = files.remove(table.name());
                if (content != null) {
                    apply(table, content, counts, problems);
                }
            }
            files.keySet()
                    .forEach(name -> problems.add(
                            new ImportProblem(name + ".csv", 0, "", "csv.file-unknown", List.of(name + ".csv"))));
            if (!problems.isEmpty()) {
                status.setRollbackOnly();
                return new ImportOutcome(0, 0, 0, List.copyOf(problems));
            }
            if (dryRun) {
                status.setRollbackOnly();
            } else {
                changeLog.record(
                        "business",
                        "import",
                        "imported",
                        Map.of("created", counts[0], "changed", counts[1], "unchanged", counts[2]));
            }
            return new ImportOutcome(counts[0], counts[1], counts[2], List.of());
        });
    }

    private void apply(CsvTable table, byte[] content, int[] counts, List<ImportProblem> problems) {
        String file = table.name() + ".csv";
        CsvFile csv;
        try {
            csv = CsvFile.read(content);
        } catch (CsvFile.Unreadable unreadable) {
            problems.add(new ImportProblem(file, unreadable.line(), "", unreadable.code(), List.of()));
            return;
        }
        if (csv.lines().isEmpty()) {
            problems.add(new ImportProblem(file, 0, "", "csv.empty", List.of()));
            return;
        }
        CsvFile.Line header = csv.lines().getFirst();
        List<String> columns = header.fields().stream().map(String::strip).toList();
        if (!headerFits(table, file, header, columns, problems)) {
            return;
        }
        for (CsvFile.Line line : csv.lines().subList(1, csv.lines().size())) {
            if (problems.size() >= MOST_ERRORS) {
                problems.add(new ImportProblem(file, line.number(), "", "csv.more-errors", List.of(MOST_ERRORS)));
                return;
            }
            if (line.fields().size() != columns.size()) {
                problems.add(new ImportProblem(
                        file,
                        line.number(),
                        "",
                        "csv.field-count",
                        List.of(line.fields().size(), columns.size())));
                continue;
            }
            var fields = new HashMap<String, String>();
            for (int i = 0; i < columns.size(); i++) {
                fields.put(columns.get(i), line.fields().get(i));
            }
            applyRow(table, file, line.number(), new CsvRow(fields), counts, problems);
        }
    }

    private static boolean headerFits(
            CsvTable table, String file, CsvFile.Line header, List<String> columns, List<ImportProblem> problems) {
        int before = problems.size();
        var seen = new HashSet<String>();
        for (String column : columns) {
            if (!table.columns().contains(column)) {
                problems.add(new ImportProblem(file, header.number(), column, "csv.column-unknown", List.of(column)));
            } else if (!seen.add(column)) {
                problems.add(new ImportProblem(file, header.number(), column, "csv.column-twice", List.of(column)));
            }
        }
        for (String column : table.columns()) {
            if (!columns.contains(column) && !table.laterColumns().contains(column)) {
                problems.add(new ImportProblem(file, header.number(), column, "csv.column-missing", List.of(column)));
            }
        }
        return problems.size() == before;
    }

    private void applyRow(
            CsvTable table, String file, int line, CsvRow fields, int[] counts, List<ImportProblem> problems) {
        try {
            // A savepoint for each row: one refused row must not hide what is wrong with the next.
            row.executeWithoutResult(status -> counts[table.apply(fields).ordinal()]++);
        } catch (FieldRefusal refusal) {
            problems.add(new ImportProblem(file, line, refusal.field(), refusal.code(), refusal.args()));
        } catch (StaleVersion stale) {
            problems.add(new ImportProblem(file, line, "", "csv.row-changed", List.of()));
        } catch (IllegalArgumentException | DataAccessException unfit) {
            LOG.info("{} line {} does not fit: {}", file, line, unfit.getMessage());
            problems.add(new ImportProblem(file, line, "", "csv.row-unfit", List.of()));
        }
    }

    private static Map<String, byte[]> unpack(String fileName, byte[] bytes, List<ImportProblem> problems) {
        var files = new LinkedHashMap<String, byte[]>();
        boolean zipped = bytes.length > 3 && bytes[0] == 'P' && bytes[1] == 'K';
        if (!zipped) {
            files.put(tableName(fileName), bytes);
            return files;
        }
        int total = 0;
        if (!endsWithDirectory(bytes)) {
            problems.add(new ImportProblem(fileName, 0, "", "csv.zip-broken", List.of()));
            return files;
        }
        try (var zip = new ZipInputStream(new ByteArrayInputStream(bytes))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                if (entry.isDirectory()) {
                    continue;
                }
                byte[] content = zip.readNBytes(LARGEST_UNPACKED - total + 1);
                total += content.length;
                if (total > LARGEST_UNPACKED) {
                    problems.add(new ImportProblem(fileName, 0, "", "csv.too-large", List.of()));
                    return new LinkedHashMap<>();
                }
                if (files.put(tableName(entry.getName()), content) != null) {
                    problems.add(new ImportProblem(entry.getName(), 0, "", "csv.file-twice", List.of()));
                }
            }
        } catch (ZipException | EOFException broken) {
            problems.add(new ImportProblem(fileName, 0, "", "csv.zip-broken", List.of()));
            return new LinkedHashMap<>();
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
        if (files.isEmpty()) {
            problems.add(new ImportProblem(fileName, 0, "", "csv.zip-broken", List.of()));
        }
        return files;
    }

    /**
     * Whether the record that ends every zip is there (APPNOTE 6.3.10, 4.3.16): read as a stream, a zip that was cut off
     * between two of its files would look whole and be taken in by half.
     */
    private static boolean endsWithDirectory(byte[] bytes) {
        for (int at = bytes.length - END_OF_DIRECTORY_BYTES; at >= 0; at--) {
            if (bytes[at] == 'P' && bytes[at + 1] == 'K' && bytes[at + 2] == 5 && bytes[at + 3] == 6) {
                return true;
            }
        }
        return false;
    }

    private static String tableName(String path) {
        String name = path.substring(path.lastIndexOf('/') + 1);
        return name.endsWith(".csv") ? name.substring(0, name.length() - ".csv".length()) : name;
    }

    private static void write(ZipOutputStream zip, List<String> fields) {
        try {
            zip.write(CsvText.line(fields).getBytes(StandardCharsets.UTF_8));
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
    }
}
