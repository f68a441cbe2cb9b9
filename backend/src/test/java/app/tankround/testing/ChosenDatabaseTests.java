package app.tankround.testing;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.SQLException;
import org.junit.jupiter.api.Test;

/** The one test that is left where the database that was chosen for the run cannot be had. */
class ChosenDatabaseTests {

    @Test
    void databaseOfThisRunAnswers() throws SQLException {
        try (var connection = TestPostgres.shared().connectAsSuperuser();
                var statement = connection.createStatement();
                var answer = statement.executeQuery("select current_setting('server_version_num')::int")) {
            answer.next();

            assertThat(answer.getInt(1)).isGreaterThanOrEqualTo(160000);
        }
    }
}
