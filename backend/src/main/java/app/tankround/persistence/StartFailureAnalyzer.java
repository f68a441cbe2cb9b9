package app.tankround.persistence;

import org.springframework.boot.diagnostics.AbstractFailureAnalyzer;
import org.springframework.boot.diagnostics.FailureAnalysis;

/** Shows the problem and the remedy in place of a stack trace. */
class StartFailureAnalyzer extends AbstractFailureAnalyzer<StartFailure> {

    @Override
    protected FailureAnalysis analyze(Throwable rootFailure, StartFailure cause) {
        return new FailureAnalysis(String.valueOf(cause.getMessage()), cause.remedy(), cause);
    }
}
