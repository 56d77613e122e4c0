"""The published work that numbers of the program stand on: who, when, where. Named from docstrings and the rules.

A DOI is given where its record was read; empty means that none was looked up successfully, and never a guess. What
stands on practice alone is no reference: it is marked [P].
"""
from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Reference:
    """One publication. `where` is the journal with volume and page; `doi` may be empty."""

    authors: str
    year: int
    where: str = ""
    doi: str = ""

    @property
    def short(self) -> str:
        """`Salaffi 2004`."""
        return f"{self.authors.split(',')[0].removesuffix(' et al.')} {self.year}"

    @property
    def line(self) -> str:
        """`Salaffi et al. 2004, Eur J Pain 8:283–291, doi:10.1016/j.ejpain.2003.09.004`, without what is not known."""
        known = [f"{self.authors} {self.year}", self.where, f"doi:{self.doi}" if self.doi else ""]
        return ", ".join(filter(None, known))


SILBERNAGEL_2007 = Reference("Silbernagel et al.", 2007)
SALAFFI_2004 = Reference("Salaffi et al.", 2004, "Eur J Pain 8:283–291", "10.1016/j.ejpain.2003.09.004")
ACSM_AHA_2007 = Reference("ACSM/AHA", 2007)
FOSTER_2001 = Reference("Foster et al.", 2001, "J Strength Cond Res 15:109–115")
NARLOCH_1995 = Reference("Narloch", 1995)
RIKLI_JONES_1999 = Reference("Rikli & Jones", 1999, "J Aging Phys Act 7:162")
CONLON_2016 = Reference("Conlon et al.", 2016, "Med Sci Sports Exerc 48:2426")
BOHANNON_2006 = Reference("Bohannon", 2006, "J Geriatr Phys Ther 29:64–68", "10.1519/00139143-200608000-00004")
BOHANNON_LUSARDI_2004 = Reference("Bohannon & Lusardi", 2004)
EPLEY_1985 = Reference("Epley", 1985)
WILLIAMS_2017 = Reference("Williams et al.", 2017, "Br J Sports Med 51:209")
BROOKE_WAVELL_2022 = Reference("Brooke-Wavell et al.", 2022, "Br J Sports Med 56:837", "10.1136/bjsports-2021-104634")
SINAKI_1984 = Reference("Sinaki & Mikkelsen", 1984, "Arch Phys Med Rehabil 65:593")
BHATTACHARYYA_2017 = Reference("Bhattacharyya et al.", 2017, "Otolaryngol Head Neck Surg 156(3S):S1")
PAUWELS_2023 = Reference("Pauwels et al.", 2023, "J Neurol Phys Ther 47:127")
BO_NYGAARD_2020 = Reference("Bø & Nygaard", 2020, "Sports Med", "10.1007/s40279-019-01243-1")
SIMPSON_2016 = Reference("Simpson et al.", 2016, "Int Urogynecol J")
EANNUCCI_2019 = Reference("Eannucci et al.", 2019, "HSS J 15:247")
KORFITSEN_2023 = Reference("Korfitsen et al.", 2023, "Acta Orthop")
WYLDE_2019 = Reference("Wylde et al.", 2019, "EFORT Open Rev 4:460")
JENKINS_2008 = Reference("Jenkins et al.", 2008, "Phys Ther 88:1012")
SHERRINGTON_2020 = Reference("Sherrington et al.", 2020, "Int J Behav Nutr Phys Act", "10.1186/s12966-020-01041-3")
MONTERO_ODASSO_2022 = Reference("Montero-Odasso et al.", 2022, "Age Ageing", "10.1093/ageing/afac205")
PALUCH_2024 = Reference("Paluch et al.", 2024, "Circulation 149:e217")
WILLIAMS_2007 = Reference("Williams et al.", 2007, "Circulation 116:572")
TURNER_2019 = Reference("Turner et al.", 2019, "Sports Med Open", "10.1186/s40798-019-0192-1")
BILLINGER_2014 = Reference("Billinger et al.", 2014, "Stroke 45:2532")
HOLLAND_2012 = Reference("Holland et al.", 2012, "Cochrane Database Syst Rev CD008250")
OSBORNE_2022 = Reference("Osborne et al.", 2022, "Phys Ther 102:pzab302")
CAMPBELL_2022 = Reference("Campbell et al.", 2022, "JCO Oncol Pract")
RAMANAN_2014 = Reference("Ramanan et al.", 2014)
TAYLOR_2017 = Reference("Taylor et al.", 2017)
BURTON_2015 = Reference("Burton et al.", 2015)
MULROY_2011 = Reference("Mulroy et al.", 2011)
TRAN_2021 = Reference("Tran et al.", 2021, "Age Ageing 50:1520")
JASIEN_2015 = Reference("Jasien et al.", 2015)
CAPOVILLA_2016 = Reference("Capovilla et al.", 2016, "Epilepsia", "10.1111/epi.13261")
#: A clinic's page and not a paper: resting pressure above 180/110 is a reason to ask, case by case.
HEART_ONLINE_2026 = Reference("Heart Online", 2026, "heartonline.org.au, safety considerations, as read that year")
#: From its abstract.
WHITFIELD_2017 = Reference("Whitfield et al.", 2017)
GILL_2022 = Reference("Gill et al.", 2022)
PETERSEN_2017 = Reference("Petersen et al.", 2017, "", "10.1519/JPT.0000000000000102")
DONOGHUE_2019 = Reference("Donoghue et al.", 2019, "BMJ Open", "10.1136/bmjopen-2019-030475")
HUANG_2011 = Reference("Huang et al.", 2011)
WRIGHT_2011 = Reference("Wright et al.", 2011)
ALGHADIR_2015 = Reference("Alghadir et al.", 2015, "BMC Musculoskelet Disord", "10.1186/s12891-015-0637-8")
PONDAL_2008 = Reference("Pondal & del Ser", 2008, "J Geriatr Phys Ther 31:57–63")
ARAUJO_2022 = Reference("Araujo et al.", 2022, "Br J Sports Med")
CESARI_2005 = Reference("Cesari et al.", 2005, "J Am Geriatr Soc 53:1675")
GOLDBERG_2011 = Reference("Goldberg et al.", 2011, "Gait Posture 33:737")
BARRY_2014 = Reference("Barry et al.", 2014, "BMC Geriatr 14:14")
MADERA_2017 = Reference("Madera et al.", 2017, "J Neurosurg Spine 26:694")
FREEMAN_2011 = Reference("Freeman et al.", 2011)

#: By the name that docstrings give, in the order of the names.
REFERENCES: dict[str, Reference] = {
    name: value for name, value in sorted(globals().items()) if isinstance(value, Reference)}
