CREATE TABLE `audit_head` (
	`id` integer PRIMARY KEY NOT NULL,
	`lines` integer NOT NULL,
	`digest` text NOT NULL
);
--> statement-breakpoint
CREATE TABLE `guess` (
	`key` text PRIMARY KEY NOT NULL,
	`wrong` integer NOT NULL,
	`last_at` integer NOT NULL,
	`wait_until` integer NOT NULL
);
--> statement-breakpoint
CREATE INDEX `guess_in_time` ON `guess` (`last_at`);--> statement-breakpoint
CREATE TABLE `invitation` (
	`account_id` integer PRIMARY KEY NOT NULL,
	`token_digest` text NOT NULL,
	`expires_at` integer NOT NULL,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `known_device` (
	`account_id` integer NOT NULL,
	`device_digest` text NOT NULL,
	`last_at` integer NOT NULL,
	PRIMARY KEY(`account_id`, `device_digest`),
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
ALTER TABLE `account` ADD `pin_hash` text;--> statement-breakpoint
ALTER TABLE `account` ADD `deactivated_at` integer;--> statement-breakpoint
ALTER TABLE `audit` ADD `key_id` integer;--> statement-breakpoint
CREATE INDEX `audit_in_time` ON `audit` (`at`);--> statement-breakpoint
ALTER TABLE `session` ADD `device` text DEFAULT '' NOT NULL;--> statement-breakpoint
INSERT INTO `audit_head` (`id`, `lines`, `digest`) SELECT 1, count(*), coalesce((SELECT `digest` FROM `audit` ORDER BY `id` DESC LIMIT 1), '') FROM `audit`;--> statement-breakpoint
CREATE TRIGGER `audit_stays` BEFORE UPDATE ON `audit` BEGIN SELECT raise(ABORT, 'the record is append-only'); END;--> statement-breakpoint
CREATE TRIGGER `audit_is_kept` BEFORE DELETE ON `audit` BEGIN SELECT raise(ABORT, 'the record is append-only'); END;
