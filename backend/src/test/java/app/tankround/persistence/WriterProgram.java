package app.tankround.persistence;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;

/** Starts the server in the directory it is given and writes rows until it is killed, naming each one once committed. */
final class WriterProgram {

    private WriterProgram() {}

    public static void main(String[] args) throws SQLException {
        try (EmbeddedPostgres postgres = EmbeddedPostgres.start(Path.of(args[0]), System.err::println);
                Connection connection =
                        DriverManager.getConnection(postgres.jdbcUrl(), EmbeddedPostgres.ROLE, postgres.password())) {
            try (var statement = connection.createStatement()) {
                statement.execute("create table written (n integer primary key, words text not null)");
            }
            try (var insert = connection.prepareStatement("insert into written values (?, repeat('words', 100))")) {
                for (int n = 1; ; n++) {
                    insert.setInt(1, n);
                    insert.executeUpdate();
                    System.out.println(n);
                    System.out.flush();
                }
            }
        }
    }
}
