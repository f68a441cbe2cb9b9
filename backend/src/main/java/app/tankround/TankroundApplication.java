package app.tankround;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/** The program: pages, API and jobs over one PostgreSQL database. */
@SpringBootApplication
public class TankroundApplication {

    public static void main(String[] args) {
        SpringApplication.run(TankroundApplication.class, args);
    }
}
