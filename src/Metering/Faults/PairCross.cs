using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Athwart.Metering.Faults;

/// <summary>Long-term powers of mid and side and what they have in common, from the blocks that the held spectrum transforms anyway.</summary>
/// <remarks>
/// Eight blocks make a group. The cross-spectrum of a group is squared before it is added to the whole: a sound on the left and one on
/// the right have opposite signs, and in the square both have the same phase, twice that of the delay. What mid and side do not have in
/// common has any phase and cancels.
/// </remarks>
internal sealed class PairCross
{
    internal const int Group = 8, Length = PairSpectrum.Length, Bins = PairSpectrum.Bins;
    private readonly float[] _mid = new float[Bins], _side = new float[Bins], _re = new float[Bins], _im = new float[Bins];
    private int _inGroup;

    /// <summary>Groups so far.</summary>
    public int Groups { get; private set; }

    /// <summary>Sum over groups of the squared cross-spectrum, each divided by the powers: magnitude is coherence.</summary>
    public (double Re, double Im)[] Square { get; } = new (double, double)[Bins];

    /// <summary>Sum over groups of the cross-spectrum itself, divided by the root of the powers: keeps what comes from one side on the whole.</summary>
    public (double Re, double Im)[] Plain { get; } = new (double, double)[Bins];

    /// <summary>Mean power of the mid; a sine of amplitude 1 on a bin reads 1.</summary>
    public double[] Mid { get; } = new double[Bins];

    /// <summary>Mean power of the side.</summary>
    public double[] Side { get; } = new double[Bins];

    /// <summary>Power of the mid in the group where each bin was quietest.</summary>
    public float[] QuietMid { get; } = new float[Bins];

    /// <summary>The same of the side.</summary>
    public float[] QuietSide { get; } = new float[Bins];

    /// <summary>Takes the joint transform of a block: mid as real, side as imaginary part.</summary>
    public void Add(ReadOnlySpan<float> real, ReadOnlySpan<float> imaginary)
    {
        var k = Vector256.IsHardwareAccelerated ? AddVectors(real, imaginary) : 1;
        for (; k < Bins - 1; k++)
        {
            var (ar, ai, br, bi) = (real[k], imaginary[k], real[Length - k], imaginary[Length - k]);
            var (mr, mi, sr, si) = (ar + br, ai - bi, ai + bi, br - ar);
            _mid[k] += (mr * mr) + (mi * mi);
            _side[k] += (sr * sr) + (si * si);
            _re[k] += (mr * sr) + (mi * si);
            _im[k] += (mi * sr) - (mr * si);
        }

        if (++_inGroup == Group)
            Close();
    }

    /// <summary>Eight bins at a time, the mirrored half read backwards; returns the first bin left.</summary>
    private int AddVectors(ReadOnlySpan<float> real, ReadOnlySpan<float> imaginary)
    {
        ref var r = ref MemoryMarshal.GetReference(real);
        ref var i = ref MemoryMarshal.GetReference(imaginary);
        var backwards = Vector256.Create(7, 6, 5, 4, 3, 2, 1, 0);
        var k = 1;
        for (; k + 8 <= Bins - 1; k += 8)
        {
            var (ar, ai) = (Vector256.LoadUnsafe(ref r, (nuint)k), Vector256.LoadUnsafe(ref i, (nuint)k));
            var br = Vector256.Shuffle(Vector256.LoadUnsafe(ref r, (nuint)(Length - k - 7)), backwards);
            var bi = Vector256.Shuffle(Vector256.LoadUnsafe(ref i, (nuint)(Length - k - 7)), backwards);
            var (mr, mi, sr, si) = (ar + br, ai - bi, ai + bi, br - ar);
            Add(_mid, k, (mr * mr) + (mi * mi));
            Add(_side, k, (sr * sr) + (si * si));
            Add(_re, k, (mr * sr) + (mi * si));
            Add(_im, k, (mi * sr) - (mr * si));
        }

        return k;
    }

    private static void Add(float[] sums, int at, Vector256<float> values) =>
        (Vector256.LoadUnsafe(ref sums[at]) + values).StoreUnsafe(ref sums[at]);

    /// <summary>Ends the take; a group begun counts only when there is no other.</summary>
    public void Complete()
    {
        if (Groups == 0 && _inGroup > 0)
            Close();
        for (var k = 0; k < Bins && Groups > 0; k++)
            (Mid[k], Side[k]) = (Mid[k] / Groups, Side[k] / Groups);
    }

    private void Close()
    {
        var scale = 1f / (4 * _inGroup);
        for (var k = 1; k < Bins - 1; k++)
        {
            var (re, im, powers) = (_re[k], _im[k], (_mid[k] * (double)_side[k]) + 1e-30);
            var root = Math.Sqrt(powers);
            Plain[k] = (Plain[k].Re + (re / root), Plain[k].Im + (im / root));
            Square[k] = (Square[k].Re + (((re * (double)re) - (im * (double)im)) / powers), Square[k].Im + (2.0 * re * im / powers));
            var (mid, side) = (_mid[k] * scale, _side[k] * scale);
            Mid[k] += mid;
            Side[k] += side;
            QuietMid[k] = Groups == 0 ? mid : MathF.Min(QuietMid[k], mid);
            QuietSide[k] = Groups == 0 ? side : MathF.Min(QuietSide[k], side);
        }

        foreach (var sums in (ReadOnlySpan<float[]>)[_mid, _side, _re, _im])
            sums.AsSpan().Clear();
        (_inGroup, Groups) = (0, Groups + 1);
    }
}
