-- What is measured for a proposal, so that what it takes goes along; absent where nothing is, or nobody has said what.
alter table work_proposal add column quantity text;
