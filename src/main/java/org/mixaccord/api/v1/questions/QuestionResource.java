package org.mixaccord.api.v1.questions;

import jakarta.transaction.Transactional;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Response;
import java.util.ArrayList;
import java.util.List;
import org.mixaccord.accounts.Access;
import org.mixaccord.accounts.Member;
import org.mixaccord.accounts.Texts;
import org.mixaccord.api.v1.Paging;
import org.mixaccord.record.Question;
import org.mixaccord.record.QuestionDesk;
import org.mixaccord.songs.SongDoor;

/** What was asked back, and the answers. */
@Path("/api/v1")
public class QuestionResource {
  /** A likely answer. */
  public record Choice(String id, String text) {}

  /** A question. */
  public record QuestionView(
      String id,
      String note,
      List<String> changes,
      String to,
      String toName,
      String text,
      List<Choice> choices,
      String answer,
      boolean skipped,
      boolean open) {
    static QuestionView of(Question question, Access reader) {
      List<Choice> choices = new ArrayList<>();
      for (String text : question.choices()) {
        choices.add(new Choice(Integer.toString(choices.size() + 1), Texts.upright(text)));
      }
      String to = QuestionDesk.askedOf(question, reader).orElse(question.note().author().id());
      return new QuestionView(
          question.id(),
          question.note().id(),
          question.changes(),
          to,
          reader.people().ofPerson(to).map(Member::person).orElse(question.note().author()).name(),
          Texts.upright(question.text()),
          choices,
          question.answer().orElse(null),
          question.skipped(),
          !question.answered());
    }
  }

  /** A change and the state it came to. */
  public record ChangeNow(String id, String state) {}

  /** What came of an answer. */
  public record Answered(List<ChangeNow> changes) {}

  private final QuestionDesk desk;
  private final SongDoor door;

  QuestionResource(QuestionDesk desk, SongDoor door) {
    this.desk = desk;
    this.door = door;
  }

  @GET
  @Path("/songs/{s}/questions")
  @Transactional
  public Response list(
      @PathParam("s") String song,
      @QueryParam("open") @DefaultValue("false") boolean open,
      @BeanParam Paging paging) {
    Access reader = door.song(song).access();
    return paging.page(
        desk.list(song, open).stream().map(q -> QuestionView.of(q, reader)).toList());
  }

  @POST
  @Path("/questions/{q}/answer")
  @Transactional
  public Answered answer(@PathParam("q") String question, QuestionDesk.Answer body) {
    return new Answered(
        desk.answer(question, body).stream()
            .map(c -> new ChangeNow(c.id(), c.state().wire()))
            .toList());
  }
}
