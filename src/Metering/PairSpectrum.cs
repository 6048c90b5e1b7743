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

    // The blocks of the open group.
    private readonly float[] _mids = new float[Group * Length], _sides = new float[Group * Length];
    private readonly float[] _real = new float[Length], _imaginary = new float[Length];
    private Candidate _forMid = new(), _forSide = new(), _quiet = new();
    private long _firstBlock;
    private int _inGroup;

    /// <summary>Largest power of the mid for each bin; a full-scale sine on a bin reads 1.</summary>
    public float[] Mid { get; } = new float[Bins];

    /// <summary>Largest power of the side for each bin.</summary>
    public float[] Side { get; } = new float[Bins];

    /// <summary>Blocks transformed so far.</summary>
    public int Transformed { get; private set; }

    /// <summary>Takes the next block of exactly <see cref="Length"/> frames, padded with zeros if need be.</summary>
    public void Add(ReadOnlySpan<float> mid, ReadOnlySpan<float> side, long firstFrame)
    {
        mid.CopyTo(Slot(_mids, _inGroup));
        side.CopyTo(Slot(_sides, _inGroup));
        _firstBlock = _inGroup == 0 ? firstFrame / Length : _firstBlock;
        var (ofMid, ofSide) = (SecondDifference.Energy(mid), SecondDifference.Energy(side));
        _forMid.Offer(ofMid, _inGroup);
        _forSide.Offer(ofSide, _inGroup);
        if (cross is not null && ofMid + ofSide > 0)
            _quiet.Offer(1 / (ofMid + ofSide), _inGroup);
        if (++_inGroup == Group)
            Flush();
    }

    /// <summary>Transforms what the open group has chosen, in the order of time: what moves from spectrum to spectrum is followed.</summary>
    public void Flush()
    {
        for (var slot = 0; slot < _inGroup; slot++)
        {
            if (slot == _forMid.Slot || slot == _forSide.Slot || slot == _quiet.Slot)
                Transform(slot);
        }

        _forMid.Clear();
        _forSide.Clear();
        _quiet.Clear();
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

    private void Transform(int slot)
    {
        Transformed++;
        Windowing.Apply(Slot(_mids, slot), _window, _real);
        Windowing.Apply(Slot(_sides, slot), _window, _imaginary);
        _transform.Forward(_real, _imaginary);
        JointSpectrum.HoldPowers(_real, _imaginary, Mid, Side);
        cross?.Add(_real, _imaginary, _firstBlock + slot);
    }

    private static Span<float> Slot(float[] samples, int slot) => samples.AsSpan(slot * Length, Length);

    /// <summary>The block of a group that offers most.</summary>
    private struct Candidate
    {
        private double _energy;

        public Candidate() => Clear();

        /// <summary>Its place in the group; −1 for none.</summary>
        public int Slot { get; private set; }

        public void Offer(double energy, int slot)
        {
            if (energy > _energy)
                (_energy, Slot) = (energy, slot);
        }

        public void Clear() => (_energy, Slot) = (0, -1);
    }
}
