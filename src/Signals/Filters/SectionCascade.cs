using System.Runtime.Intrinsics;

namespace Athwart.Signals.Filters;

/// <summary>Second-order sections one after the other, for the mid and for the side, in place; either list may be empty.</summary>
/// <remarks>
/// <para>
/// Direct form I: y[n] = ((b0·x[n] + b1·x[n−1]) + b2·x[n−2]) − a2·y[n−2] − a1·y[n−1], in that order, each operation rounded by itself. As
/// far as both roles have sections they run as two lanes of one vector; sections in a row run at once too, each a frame behind the one
/// before. Neither changes a bit of what plain arithmetic gives.
/// </para>
/// <para>Every 4096 frames from the start, what has died down below 1e-200 is set to nought: such numbers cost a hundred times the time.</para>
/// </remarks>
public sealed class SectionCascade
{
    private const int Stretch = 4096;
    private const double Nothing = 1e-200;

    private readonly SectionState[] _mid;
    private readonly SectionState[] _side;
    private int _inStretch;

    /// <summary>Prepares the sections, at rest.</summary>
    /// <param name="mid">For the mid, in order.</param>
    /// <param name="side">For the side, in order.</param>
    public SectionCascade(IEnumerable<BiquadCoefficients> mid, IEnumerable<BiquadCoefficients> side)
    {
        _mid = [.. mid.Select(c => new SectionState(c))];
        _side = [.. side.Select(c => new SectionState(c))];
    }

    /// <summary>Whether vectors are used where the machine has them; for comparing the two.</summary>
    public bool UseVectors { get; init; } = Vector128.IsHardwareAccelerated;

    /// <summary>Forgets all that went in.</summary>
    public void Reset()
    {
        foreach (var section in _mid.AsSpan())
            section.Rest();
        foreach (var section in _side.AsSpan())
            section.Rest();
        _inStretch = 0;
    }

    /// <summary>Gives the section at a place other weights, for both roles; what it remembers stays.</summary>
    internal void Retune(int index, BiquadCoefficients coefficients)
    {
        if (index < _mid.Length)
            _mid[index].Coefficients = coefficients;
        if (index < _side.Length)
            _side[index].Coefficients = coefficients;
    }

    /// <summary>Filters the next frames in place; mid and side are of one length.</summary>
    public void Process(Span<double> mid, Span<double> side)
    {
        while (mid.Length > 0)
        {
            var count = Math.Min(mid.Length, Stretch - _inStretch);
            Run(mid[..count], side[..count]);
            mid = mid[count..];
            side = side[count..];
            _inStretch = (_inStretch + count) % Stretch;
            if (_inStretch == 0)
                Settle();
        }
    }

    private void Run(Span<double> mid, Span<double> side)
    {
        var both = UseVectors ? Math.Min(_mid.Length, _side.Length) : 0;
        var k = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            for (; k + 3 < both && mid.Length > 2; k += 4)
                SectionKernel.FourOfBoth(_mid.AsSpan(k, 4), _side.AsSpan(k, 4), mid, side);
            for (; k + 1 < both; k += 2)
                SectionKernel.TwoOfBoth(_mid[k], _side[k], _mid[k + 1], _side[k + 1], mid, side);
            if (k < both && Uneven(k, mid, side))
                return;
        }

        for (; k < both; k++)
            SectionKernel.OneOfBoth(_mid[k], _side[k], mid, side);
        Rest(_mid.AsSpan(both), mid);
        Rest(_side.AsSpan(both), side);
    }

    // The last section that both have, together with the next of the role that has more.
    private bool Uneven(int last, Span<double> mid, Span<double> side)
    {
        if (_mid.Length == _side.Length)
            return false;
        if (_mid.Length < _side.Length)
            SectionKernel.OneAndTwo(_mid[last], mid, _side[last], _side[last + 1], side);
        else
            SectionKernel.OneAndTwo(_side[last], side, _mid[last], _mid[last + 1], mid);
        Rest(_mid.AsSpan(Math.Min(_mid.Length, last + 2)), mid);
        Rest(_side.AsSpan(Math.Min(_side.Length, last + 2)), side);
        return true;
    }

    private void Rest(ReadOnlySpan<SectionState> sections, Span<double> samples)
    {
        for (; UseVectors && sections.Length > 1; sections = sections[2..])
            SectionKernel.Two(sections[0], sections[1], samples);
        foreach (var section in sections)
            SectionKernel.One(section, samples);
    }

    private void Settle()
    {
        foreach (var section in _mid.AsSpan())
            section.Settle(Nothing);
        foreach (var section in _side.AsSpan())
            section.Settle(Nothing);
    }
}
