using Athwart.Metering.Faults;
using Athwart.Signals.Fourier;

namespace Athwart.Metering;

/// <summary>The largest power that mid and side reached at each frequency, from blocks of 4096 frames.</summary>
/// <remarks>
/// Not every block is transformed. Of every four neighbours the one with the largest sum of squared second differences of the mid is
/// taken, and the one with that of the side; for faults also the quietest, in which lines are not hidden. The second difference weighs a frequency by its square (12 dB an octave), so of four
/// blocks the one that reaches highest and loudest is the one that is kept: a short event cannot fall between the blocks that are
/// looked at. For sound that does not change, every block would have said the same. The last, incomplete block is left out.
/// </remarks>
internal sealed class PairSpectrum(PairCross? cross = null)
{
    /// <summary>Frames in a block and bins up to half the sample rate.</summary>
    public const int Length = SampleWindow.Length, Bins = (Length / 2) + 1;

    internal const int Group = 4;
    private readonly FourierTransform _transform = new(Length);
    private readonly float[] _window = Hann();
    private readonly Candidate _forMid = new(), _forSide = new(), _quiet = new();
    private readonly Candidate[] _chosen = new Candidate[3];
    private readonly float[] _real = new float[Length], _imaginary = new float[Length];
    private int _inGroup;

    /// <summary>Largest power of the mid for each bin; a full-scale sine on a bin reads 1.</summary>
    public float[] Mid { get; } = new float[Bins];

    /// <summary>Largest power of the side for each bin.</summary>
    public float[] Side { get; } = new float[Bins];

    /// <summary>Blocks transformed so far.</summary>
    public int Transformed { get; private set; }

    /// <summary>Takes the next block of exactly <see cref="Length"/> frames, padded with zeros if need be.</summary>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side, long block)
    {
        var (ofMid, ofSide) = (SecondDifference.Energy(mid), SecondDifference.Energy(side));
        _forMid.Offer(ofMid, mid, side, block);
        _forSide.Offer(ofSide, mid, side, block);
        if (cross is not null && ofMid + ofSide > 0)
            _quiet.Offer(1 / (ofMid + ofSide), mid, side, block);
        if (++_inGroup == Group)
            Flush();
    }

    /// <summary>Transforms what the open group has chosen, in the order of time: what moves from spectrum to spectrum is followed.</summary>
    public void Flush()
    {
        (_chosen[0], _chosen[1], _chosen[2]) = (_forMid, _forSide, _quiet);
        Array.Sort(_chosen, static (a, b) => a.Block.CompareTo(b.Block));
        for (var i = 0; i < _chosen.Length; i++)
        {
            if (_chosen[i].Block >= 0 && (i == 0 || _chosen[i].Block != _chosen[i - 1].Block))
                Transform(_chosen[i]);
        }

        foreach (var chosen in _chosen)
            chosen.Clear();
        _inGroup = 0;
    }

    private static float[] Hann()
    {
        // Scaled so that a full-scale sine in the middle of a bin reads 1: the mean of the window is a half, and so is one line of a sine.
        var window = new float[Length];
        for (var i = 0; i < Length; i++)
            window[i] = (float)((0.5 - (0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / Length))) * 4 / Length);
        return window;
    }

    private void Transform(Candidate chosen)
    {
        Transformed++;
        for (var i = 0; i < Length; i++)
        {
            _real[i] = chosen.Mid[i] * _window[i];
            _imaginary[i] = chosen.Side[i] * _window[i];
        }

        _transform.Forward(_real, _imaginary);
        Hold();
        cross?.Add(_real, _imaginary, chosen.Block / Length);
    }

    /// <summary>Takes the two spectra apart: of Z = M + i·S, M[k] = (Z[k] + Z*[N−k])/2 and i·S[k] = (Z[k] − Z*[N−k])/2.</summary>
    private void Hold()
    {
        for (var k = 1; k < Bins - 1; k++)
        {
            var (ar, ai, br, bi) = (_real[k], _imaginary[k], _real[Length - k], _imaginary[Length - k]);
            Mid[k] = MathF.Max(Mid[k], (((ar + br) * (ar + br)) + ((ai - bi) * (ai - bi))) / 4);
            Side[k] = MathF.Max(Side[k], (((ar - br) * (ar - br)) + ((ai + bi) * (ai + bi))) / 4);
        }
    }

    private sealed class Candidate
    {
        private double _energy;

        public float[] Mid { get; } = new float[Length];

        public float[] Side { get; } = new float[Length];

        public long Block { get; private set; } = -1;

        public void Offer(double energy, ReadOnlySpan<float> mid, ReadOnlySpan<float> side, long block)
        {
            if (!(energy > _energy))
                return;
            (_energy, Block) = (energy, block);
            mid.CopyTo(Mid);
            side.CopyTo(Side);
        }

        public void Clear() => (_energy, Block) = (0, -1);
    }
}
