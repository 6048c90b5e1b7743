namespace Athwart.Signals.Shaping.Control;

/// <summary>What the guard knows of a block, with b = limit·mid² and e = (g·side)².</summary>
internal struct GuardBlock
{
    /// <summary>Σb.</summary>
    public double Budget;

    /// <summary>Σe.</summary>
    public double Energy;

    /// <summary>Σ(b − e).</summary>
    public double Surplus;

    /// <summary>The largest Σ(e − b) over the heads of the block, 0 or more.</summary>
    public double HeadExcess;

    /// <summary>The same over its tails.</summary>
    public double TailExcess;

    /// <summary>Whether its gain is decided by its windows; else it passes in full.</summary>
    public bool IsWatched;

    /// <summary>Measures a block. Heads are summed forwards and tails backwards, so that each sum is as exact as what it holds.</summary>
    public static GuardBlock Of(ReadOnlySpan<double> mid, ReadOnlySpan<double> side, double limit, double sideEnergyGain)
    {
        double budget = 0, energy = 0, head = 0, tail = 0, worstHead = 0, worstTail = 0;
        side = side[..mid.Length];
        for (int n = 0, back = mid.Length - 1; n < mid.Length; n++, back--)
        {
            double b = limit * (mid[n] * mid[n]), e = sideEnergyGain * (side[n] * side[n]);
            budget += b;
            energy += e;
            head += e - b;
            worstHead = Math.Max(worstHead, head);
            tail += (sideEnergyGain * (side[back] * side[back])) - (limit * (mid[back] * mid[back]));
            worstTail = Math.Max(worstTail, tail);
        }

        return new() { Budget = budget, Energy = energy, Surplus = -head, HeadExcess = worstHead, TailExcess = worstTail };
    }

    /// <summary>The highest R ≤ 1 with which no head of the block has Σ(R·e − b) above a share.</summary>
    public static double HeadCap(ReadOnlySpan<double> mid, ReadOnlySpan<double> side, double limit, double sideEnergyGain, double share)
    {
        double budget = share, energy = 0, cap = 1;
        for (var n = 0; n < mid.Length; n++)
        {
            budget += limit * (mid[n] * mid[n]);
            energy += sideEnergyGain * (side[n] * side[n]);
            if (energy > budget)
                cap = Math.Min(cap, budget / energy);
        }

        return cap;
    }

    /// <summary>The same for its tails.</summary>
    public static double TailCap(ReadOnlySpan<double> mid, ReadOnlySpan<double> side, double limit, double sideEnergyGain, double share)
    {
        double budget = share, energy = 0, cap = 1;
        for (var n = mid.Length - 1; n >= 0; n--)
        {
            budget += limit * (mid[n] * mid[n]);
            energy += sideEnergyGain * (side[n] * side[n]);
            if (energy > budget)
                cap = Math.Min(cap, budget / energy);
        }

        return cap;
    }
}
