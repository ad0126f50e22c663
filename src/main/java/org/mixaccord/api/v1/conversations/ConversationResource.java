package org.mixaccord.api.v1.conversations;

import jakarta.transaction.Transactional;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import org.mixaccord.record.ConversationDesk;
import org.mixaccord.threads.Conversation;

/** Conversations pasted from mails and chats, for engineers. */
@Path("/api/v1")
public class ConversationResource {
  /** A text to be taken apart. */
  public record Pasted(String text) {}

  /**
   * A message found.
   *
   * @param person the member the sender seems to be, or null
   * @param known whether that is a note already
   */
  public record MessageView(
      String sender, String when, LocalDateTime at, String text, String person, boolean known) {}

  /** What is in no message; {@code message} is the place of the one it stood in, or null. */
  public record LeftOutView(String why, Integer message, String text, int lines) {}

  /** A text taken apart. */
  public record ReadView(
      List<MessageView> messages, List<LeftOutView> leftOut, boolean datesUnsure) {}

  /** What to keep. */
  public record ToKeep(String bounce, List<ConversationDesk.ToKeep> messages) {}

  private final ConversationDesk desk;

  ConversationResource(ConversationDesk desk) {
    this.desk = desk;
  }

  @POST
  @Path("/songs/{s}/conversation-readings")
  @Transactional
  public ReadView read(@PathParam("s") String song, Pasted body) {
    ConversationDesk.Read read = desk.read(song, body.text());
    List<MessageView> messages = new ArrayList<>();
    for (int i = 0; i < read.people().size(); i++) {
      Conversation.Message message = read.conversation().messages().get(i);
      messages.add(
          new MessageView(
              message.sender(),
              message.when(),
              message.at().orElse(null),
              message.text(),
              read.people().get(i).orElse(null),
              read.known().get(i)));
    }
    List<LeftOutView> leftOut =
        read.conversation().leftOut().stream()
            .map(
                out ->
                    new LeftOutView(
                        out.why().wire(),
                        out.message() < 0 ? null : out.message(),
                        out.text(),
                        out.lines().size()))
            .toList();
    return new ReadView(messages, leftOut, read.conversation().dayFirstUnsure());
  }

  @POST
  @Path("/songs/{s}/conversations")
  @Transactional
  public Response keep(@PathParam("s") String song, ToKeep body) {
    return Response.status(201).entity(desk.keep(song, body.bounce(), body.messages())).build();
  }
}
