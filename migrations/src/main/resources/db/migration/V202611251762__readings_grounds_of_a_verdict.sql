-- What a verdict came from; null where there was no number to judge, or a rule before this said so.
alter table assessment add column decision_rule text check (decision_rule in ('GUARD_BAND', 'SIMPLE_ACCEPTANCE'));
-- how likely the true value lies below and above its target; inside is the rest
alter table assessment add column below_probability double precision check (below_probability between 0 and 1);
alter table assessment add column above_probability double precision check (above_probability between 0 and 1);
-- parts of the uncertainty, on the scale read: source and standard uncertainty (k = 1) each
alter table assessment add column budget jsonb;
alter table assessment add constraint assessment_grounds_whole check (
    (decision_rule is null) = (below_probability is null)
    and (decision_rule is null) = (above_probability is null)
    and (decision_rule is null) = (budget is null));
