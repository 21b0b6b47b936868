CREATE TABLE `waypoint` (
	`feature_id` integer NOT NULL,
	`readings` integer NOT NULL,
	`last_at` real NOT NULL,
	`progress` text NOT NULL,
	PRIMARY KEY(`feature_id`, `readings`)
);
