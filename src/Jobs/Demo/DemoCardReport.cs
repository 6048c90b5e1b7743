using Athwart.Quantities;

namespace Athwart.Jobs.Demo;

/// <summary>What the demo card holds, and the truth about it: what a perfect check would find.</summary>
/// <param name="Folder">The card.</param>
/// <param name="Files">Every file written, in the order of their paths.</param>
/// <param name="Takes">Every take, in the order of the day.</param>
public sealed record DemoCardReport(string Folder, IReadOnlyList<DemoFile> Files, IReadOnlyList<DemoTake> Takes);

/// <summary>One file of the card.</summary>
/// <param name="Path">Path below the card, with forward slashes.</param>
/// <param name="Take">The take it belongs to; null for what is no recording.</param>
/// <param name="Bytes">Length.</param>
/// <param name="Description">What it is, in a sentence.</param>
public sealed record DemoFile(string Path, string? Take, long Bytes, string Description);

/// <summary>One take of the card.</summary>
/// <param name="Name">The stem of its file names.</param>
/// <param name="Title">What is heard, in a few words.</param>
/// <param name="SampleRateHertz">Frames per second.</param>
/// <param name="Word">The word on the card: 's24' or 'f32'.</param>
/// <param name="FrameCount">Whole frames on the card, all parts together.</param>
/// <param name="TimeReference">Frames since midnight of the first frame.</param>
/// <param name="Roles">What each channel holds, in the order of the file (of the two files of a mono pair).</param>
/// <param name="Files">Its files, first part first.</param>
/// <param name="Events">What happens, with place and direction.</param>
/// <param name="Faults">What was made wrong on purpose.</param>
public sealed record DemoTake(
    string Name,
    string Title,
    int SampleRateHertz,
    string Word,
    FrameCount FrameCount,
    ulong TimeReference,
    IReadOnlyList<ChannelRole> Roles,
    IReadOnlyList<string> Files,
    IReadOnlyList<DemoEvent> Events,
    IReadOnlyList<DemoFault> Faults);

/// <summary>Something that happens in a take.</summary>
/// <param name="Label">What; the label of its marker when it has one.</param>
/// <param name="Range">When.</param>
/// <param name="From">Azimuth at its start, positive to the left.</param>
/// <param name="To">Azimuth at its end; the same when it does not move.</param>
/// <param name="Marked">Whether the file carries a marker for it.</param>
public sealed record DemoEvent(string Label, FrameRange Range, Degrees From, Degrees To, bool Marked);

/// <summary>Something made wrong on purpose.</summary>
/// <param name="Kind">Kebab-case word for it.</param>
/// <param name="Role">Where it is; null when it concerns the file or both channels.</param>
/// <param name="Range">When; null when it concerns the whole take.</param>
/// <param name="Size">How big, in <paramref name="Unit"/>.</param>
/// <param name="Unit">Unit of the size; empty when it has none.</param>
/// <param name="Description">In a sentence.</param>
public sealed record DemoFault(string Kind, ChannelRole? Role, FrameRange? Range, double Size, string Unit, string Description);

/// <summary>How far the generation is.</summary>
/// <param name="TakesDone">Takes on the card so far.</param>
/// <param name="TakeCount">Takes in all.</param>
/// <param name="Title">The take just finished, in a few words.</param>
public sealed record DemoProgress(int TakesDone, int TakeCount, string Title);
