namespace Athwart.Recordings;

/// <summary>What became of a list of files.</summary>
/// <param name="Takes">The takes, in the order of their first files in the list.</param>
/// <param name="Refused">The files that are no readable recording.</param>
public sealed record TakeAssembly(IReadOnlyList<TakeDescription> Takes, IReadOnlyList<RefusedFile> Refused);

/// <summary>A file that is no readable recording.</summary>
/// <param name="Path">The file.</param>
/// <param name="Error">Why, and what to do.</param>
public sealed record RefusedFile(string Path, RecordingException Error);
