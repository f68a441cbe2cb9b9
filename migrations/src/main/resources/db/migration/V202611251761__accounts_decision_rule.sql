-- How the business decides a value against its target. Until now every verdict kept a guard band.
alter table business add column decision_rule text not null default 'GUARD_BAND'
    check (decision_rule in ('GUARD_BAND', 'SIMPLE_ACCEPTANCE'));
