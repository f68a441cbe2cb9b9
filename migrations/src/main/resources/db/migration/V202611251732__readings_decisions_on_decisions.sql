-- A decision that rests on another one, such as a change of water with a batch that somebody released.
create table decision_decision (
    decision_id       uuid        not null references decision (id),
    rests_on_id       uuid        not null references decision (id),
    primary key (decision_id, rests_on_id),
    check (decision_id <> rests_on_id)
);
create index decision_decision_rests_on_id on decision_decision (rests_on_id);
