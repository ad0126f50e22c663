/**
 * A pasted conversation, by mail or chat, taken apart by who wrote what and when. Knows shapes of
 * writing, not programs.
 */
package org.mixaccord.threads;
