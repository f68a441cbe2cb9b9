package app.tankround.seed;

import app.tankround.accounts.SignInAnnouncement;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.SmartLifecycle;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Fills the demo before the web server starts, so that nobody ever sees half of it. Each step is one transaction; a
 * filling that was stopped goes on after its last whole step.
 */
@Component
class DemoFilling implements SmartLifecycle {

    private static final Logger LOG = LoggerFactory.getLogger(DemoFilling.class);
    private static final LocalTime MORNING = LocalTime.of(6, 0);
    /** The business, then each month of the history, then today. */
    private static final int STEPS = 1 + DemoDays.MONTHS + 1;

    private final DemoProgress progress;
    private final DemoClock clock;
    private final Staff staff;
    private final Toolbox toolbox;
    private final Shelf shelf;
    private final Contracts contracts;
    private final WaterPlant waterPlant;
    private final Mixing mixing;
    private final WorkingDays workingDays;
    private final Today todaysWork;
    private final SignInAnnouncement announcement;
    private final TransactionTemplate transaction;
    private final String fixedToday;
    private volatile boolean filled;

    DemoFilling(
            DemoProgress progress,
            DemoClock clock,
            Staff staff,
            Toolbox toolbox,
            Shelf shelf,
            Contracts contracts,
            WaterPlant waterPlant,
            Mixing mixing,
            WorkingDays workingDays,
            Today todaysWork,
            SignInAnnouncement announcement,
            PlatformTransactionManager transactions,
            @Value("${tankround.demo.today:}") String fixedToday) {
        this.progress = progress;
        this.clock = clock;
        this.staff = staff;
        this.toolbox = toolbox;
        this.shelf = shelf;
        this.contracts = contracts;
        this.waterPlant = waterPlant;
        this.mixing = mixing;
        this.workingDays = workingDays;
        this.todaysWork = todaysWork;
        this.announcement = announcement;
        this.transaction = new TransactionTemplate(transactions);
        this.fixedToday = fixedToday;
    }

    @Override
    public void start() {
        try {
            fill();
        } finally {
            clock.tellTheTime();
        }
        filled = true;
    }

    private void fill() {
        DemoProgress.Standing standing = progress.standing();
        if (standing.done() == STEPS) {
            return;
        }
        Instant began = Clock.systemUTC().instant();
        var days = new DemoDays(standing.today().orElseGet(() -> firstDay(began)));
        LOG.info("Filling the demo, counted back from {}", days.today());
        for (int step = standing.done(); step < STEPS; step++) {
            int current = step;
            transaction.executeWithoutResult(status -> {
                fill(current, days, began);
                progress.done(current, days.today());
            });
            LOG.info("Filled step {} of {}", step + 1, STEPS);
        }
        LOG.info(
                "The demo is filled, in {} s",
                Duration.between(began, Clock.systemUTC().instant()).toSeconds());
        if (!days.roundsDay().equals(days.today())) {
            LOG.info("Nobody works today, so the rounds are planned for {}", days.roundsDay());
        }
    }

    private void fill(int step, DemoDays days, Instant now) {
        if (step == 0) {
            clock.standAt(DemoDays.at(days.start().minusDays(2), MORNING));
            staff.setUp();
            staff.asOffice(() -> {
                shelf.fill(days);
                toolbox.register(days, staff.technicians());
                toolbox.check(
                        Tool.all().stream()
                                .filter(tool -> tool.checkEveryDays() > 0)
                                .toList(),
                        days.start().minusDays(1),
                        staff.technicians());
            });
        } else if (step <= DemoDays.MONTHS) {
            int month = step - 1;
            clock.standAt(DemoDays.at(days.month(month), MORNING));
            staff.asOffice(() -> {
                contracts.enter(month, days, staff.depotSite());
                waterPlant.tend(month, days);
            });
            workingDays.work(month, days);
        } else {
            todaysWork.plan(days, now);
            staff.asOffice(() -> {
                waterPlant.lookIntoVats();
                mixing.mix();
            });
        }
    }

    private LocalDate firstDay(Instant now) {
        return fixedToday.isBlank() ? LocalDate.ofInstant(now, DemoDays.ZONE) : LocalDate.parse(fixedToday);
    }

    /** Last of all, so that the links stand at the end of what is printed. */
    @EventListener(ApplicationReadyEvent.class)
    @org.springframework.core.annotation.Order(200)
    void announce() {
        announcement.announceEveryone();
    }

    @Override
    public void stop() {
        filled = false;
    }

    @Override
    public boolean isRunning() {
        return filled;
    }

    /** Before the web server, which starts among the last. */
    @Override
    public int getPhase() {
        return 0;
    }
}
