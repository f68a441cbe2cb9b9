package app.tankround.testing;

import org.springframework.test.context.TestContext;
import org.springframework.test.context.TestExecutionListener;

/** Contexts are shared between test classes, so the clock must not keep what the last test did to it. */
class TestClockReset implements TestExecutionListener {

    @Override
    public void beforeTestMethod(TestContext context) {
        context.getApplicationContext().getBean(TestClock.class).set(TestClock.START);
    }
}
