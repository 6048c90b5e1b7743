namespace Athwart.Recordings;

/// <summary>One text of a LIST INFO chunk.</summary>
/// <param name="Id">Four characters, such as INAM (title) or ICMT (comment).</param>
/// <param name="Text">The text.</param>
public sealed record InfoTag(string Id, string Text);
