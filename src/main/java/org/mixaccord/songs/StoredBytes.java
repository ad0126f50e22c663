package org.mixaccord.songs;

import io.quarkus.hibernate.orm.panache.Panache;

/** How much of the disk a project's files take. */
public final class StoredBytes {
  private StoredBytes() {}

  /**
   * Bytes of all files ever uploaded to a project, replaced parts among them since they are kept,
   * voice memos too, and the announced lengths of the uploads on their way. The same file counts
   * once.
   */
  public static long ofProject(String project) {
    Object bytes =
        Panache.getEntityManager()
            .createNativeQuery(
                "select cast(coalesce((select sum(bytes) from ("
                    + " select b.sha256, b.bytes from bounce b join song s on s.id = b.song"
                    + " where s.project = ?1 union"
                    + " select t.sha256, t.bytes from stem t join bounce b on b.id = t.bounce"
                    + " join song s on s.id = b.song where s.project = ?1 union"
                    + " select n.memo_sha256, n.memo_bytes from note n join song s on s.id = n.song"
                    + " where s.project = ?1 and n.memo_sha256 is not null) files), 0)"
                    + " + coalesce((select sum(u.bytes) from resumable_upload u"
                    + " join song s on s.id = u.song where s.project = ?1"
                    + " and u.made_bounce is null and u.made_stem is null), 0) as bigint)")
            .setParameter(1, project)
            .getSingleResult();
    return ((Number) bytes).longValue();
  }
}
