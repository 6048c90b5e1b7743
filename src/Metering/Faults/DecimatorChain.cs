using System.Runtime.InteropServices;

namespace Athwart.Metering.Faults;

/// <summary>Brings one channel down to about 2000 samples a second, for what lies below 0.32 of that, in two steps where the way is long.</summary>
internal sealed class DecimatorChain
{
    private readonly Decimator? _first;
    private readonly Decimator _second;
    private readonly List<float> _between = [];

    public DecimatorChain(int sampleRateHertz)
    {
        // A multiple of four, so that every usual rate has a first step.
        Factor = Math.Max(4, 4 * (int)Math.Round(sampleRateHertz / 8000.0));
        var first = Factor < 16 ? 1 : Factor % 8 == 0 ? 8 : 4;
        _first = first == 1 ? null : new(first, 8);
        _second = new(Factor / first, 16);
    }

    /// <summary>Frames between samples that are kept.</summary>
    public int Factor { get; }

    /// <summary>Takes up to 4096 frames and adds what they give to a list.</summary>
    public void Add(ReadOnlySpan<float> block, List<float> kept)
    {
        if (_first is null)
        {
            _second.Add(block, kept);
            return;
        }

        _between.Clear();
        _first.Add(block, _between);
        _second.Add(CollectionsMarshal.AsSpan(_between), kept);
    }
}
