-- Tasks that something besides the agreement proposes for a due visit, such as the step of a plan. Each proposer has its
-- own, which it replaces whole; they follow the agreed ones.
create table proposed_task (
    planned_visit_id uuid    not null references planned_visit (id),
    -- who proposes; opaque here
    proposer         uuid    not null,
    tasks            jsonb   not null,
    primary key (planned_visit_id, proposer)
);
create index proposed_task_proposer on proposed_task (proposer);
