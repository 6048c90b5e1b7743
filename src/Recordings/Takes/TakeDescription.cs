using System.Diagnostics.CodeAnalysis;
using Athwart.Quantities;

namespace Athwart.Recordings;

/// <summary>How the files of a take belong together.</summary>
[SuppressMessage("Naming", "CA1720:Identifier contains type name", Justification = "A single file, not a number type.")]
public enum JoinKind
{
    /// <summary>One file.</summary>
    Single = 0,

    /// <summary>Two mono files, a channel each.</summary>
    MonoPair,

    /// <summary>Files one after the other, as recorders cut them at 2 or 4 GiB.</summary>
    Split,

    /// <summary>Two rows of mono files one after the other.</summary>
    SplitMonoPair,
}

/// <summary>What one file gives to a take.</summary>
/// <param name="Path">The file.</param>
/// <param name="FirstFrame">Its place in the take.</param>
/// <param name="FrameCount">Its whole frames, all of which are used.</param>
/// <param name="FirstChannel">The channel of the take that its first channel becomes, from 0.</param>
/// <param name="ChannelCount">Its channels.</param>
public sealed record TakePart(string Path, long FirstFrame, long FrameCount, int FirstChannel, int ChannelCount);

/// <summary>One channel of a take, as the recorder named it.</summary>
/// <param name="Name">Its name, from iXML or the bext description; empty when there is none.</param>
/// <param name="Function">Its iXML FUNCTION, such as M-MID_SIDE; empty when there is none.</param>
/// <param name="SourceFile">The (first) file it comes from.</param>
public sealed record TakeTrack(string Name, string Function, string SourceFile);

/// <summary>One continuous recording, from one file or several; holds no file open.</summary>
public sealed record TakeDescription
{
    /// <summary>The name of its first file without extension and without what only tells its files apart; unique in its folder within one assembly.</summary>
    public required string Name { get; init; }

    /// <summary>Its files: by channel, then by time.</summary>
    public required IReadOnlyList<TakePart> Parts { get; init; }

    /// <summary>How they belong together.</summary>
    public required JoinKind Join { get; init; }

    /// <summary>One sentence for each reason why they were joined; empty for a single file.</summary>
    public required IReadOnlyList<string> Evidence { get; init; }

    /// <summary>Its channels, <see cref="ChannelCount"/> of them.</summary>
    public required IReadOnlyList<TakeTrack> Tracks { get; init; }

    /// <summary>The number of channels.</summary>
    public required int ChannelCount { get; init; }

    /// <summary>Frames a second.</summary>
    public required int SampleRateHertz { get; init; }

    /// <summary>How samples are stored.</summary>
    public required SampleFormat Format { get; init; }

    /// <summary>The number of frames.</summary>
    public required long FrameCount { get; init; }

    /// <summary>The `bext` chunk of its first file.</summary>
    public BroadcastExtension? Broadcast { get; init; }

    /// <summary>The `iXML` chunk of its first file; for a mono pair with the tracks of both, in take channels.</summary>
    public ProductionNotes? Production { get; init; }

    /// <summary>The markers of all its files in frames of the take, each once.</summary>
    public IReadOnlyList<Marker> Markers { get; init; } = [];

    /// <summary>The INFO texts of its files, each once.</summary>
    public IReadOnlyList<InfoTag> Info { get; init; } = [];

    /// <summary>The findings of its files.</summary>
    public IReadOnlyList<Finding> Findings { get; init; } = [];

    /// <summary>Opens its files.</summary>
    /// <exception cref="RecordingException">A file is gone, or is not what it was when the take was assembled.</exception>
    public Take Open() => new(this);
}
