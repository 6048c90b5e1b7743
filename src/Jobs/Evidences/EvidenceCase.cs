using Athwart.Figures.Findings;
using Athwart.Quantities;

namespace Athwart.Jobs.Evidences;

/// <summary>A finding with everything its picture may need.</summary>
/// <param name="Id">Begins every id inside the picture.</param>
/// <param name="Finding">What was found.</param>
/// <param name="Sound">The take.</param>
/// <param name="SideGain">g of the decode it was judged at.</param>
internal sealed record EvidenceCase(string Id, Finding Finding, IPairSound Sound, double SideGain)
{
    /// <summary>The file it concerns; null when none does.</summary>
    public FileContents? File { get; init; }

    /// <summary>Side against mid of the takes checked together, in dB, by name.</summary>
    public IReadOnlyList<(string Take, double SideOverMid)> Siblings { get; init; } = [];

    /// <summary>The take's name.</summary>
    public string Take { get; init; } = "";

    /// <summary>Where it lies; the whole take when it says nothing.</summary>
    public (long From, long To) Place => Finding.Range is { } r ? (r.From.Value, Math.Max(r.To.Value, r.From.Value + 1)) : (0, Sound.Frames);

    /// <summary>Whether it has a place smaller than the take.</summary>
    public bool HasPlace => Finding.Range is { } r && (r.From.Value > 0 || r.To.Value < Sound.Frames);

    /// <summary>A frame as seconds.</summary>
    public double Seconds(long frame) => (double)frame / Sound.SampleRateHertz;
}

/// <summary>What lies where in a file.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Bytes">Its length.</param>
/// <param name="Stretches">What it holds.</param>
internal sealed record FileContents(string Name, long Bytes, IReadOnlyList<FileStretch> Stretches);
